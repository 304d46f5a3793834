'use client'
import { useEffect, useRef, useState } from 'react'

const carriesFiles = (e: DragEvent): boolean => e.dataTransfer?.types.includes('Files') ?? false

/** Takes files dropped anywhere on the page. True while one hovers over it. */
export function useFileDrop(onFiles: (files: File[]) => void): boolean {
  const [over, setOver] = useState(false)
  const take = useRef(onFiles)
  useEffect(() => {
    take.current = onFiles
  })

  useEffect(() => {
    let depth = 0 // enter and leave are raised for every element that is crossed
    const enter = (e: DragEvent) => {
      if (carriesFiles(e)) {
        depth += 1
        setOver(true)
      }
    }
    const leave = (e: DragEvent) => {
      if (carriesFiles(e)) {
        depth -= 1
        if (depth <= 0) {
          depth = 0
          setOver(false)
        }
      }
    }
    const hover = (e: DragEvent) => {
      if (carriesFiles(e)) {
        e.preventDefault()
        if (e.dataTransfer) e.dataTransfer.dropEffect = 'copy'
      }
    }
    const drop = (e: DragEvent) => {
      if (!carriesFiles(e)) return
      e.preventDefault()
      depth = 0
      setOver(false)
      const files = [...(e.dataTransfer?.files ?? [])]
      if (files.length > 0) take.current(files)
    }
    window.addEventListener('dragenter', enter)
    window.addEventListener('dragleave', leave)
    window.addEventListener('dragover', hover)
    window.addEventListener('drop', drop)
    return () => {
      window.removeEventListener('dragenter', enter)
      window.removeEventListener('dragleave', leave)
      window.removeEventListener('dragover', hover)
      window.removeEventListener('drop', drop)
    }
  }, [])
  return over
}
