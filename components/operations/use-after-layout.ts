'use client'
import { useEffect, useState } from 'react'

/** The map takes a new size up to this long after its place on the page has it. */
const RESIZE_MS = 80

/**
 * The value, once the layout that came with it is drawn. A flight that starts while the sheet slides in would end half a sheet
 * beside its goal; and arrow keys held down need no flight for every row they pass.
 */
export function useAfterLayout<T>(value: T): T {
  const [drawn, setDrawn] = useState(value)
  useEffect(() => {
    let timer = 0
    let frame = requestAnimationFrame(() => {
      frame = requestAnimationFrame(() => { timer = window.setTimeout(() => setDrawn(value), RESIZE_MS) })
    })
    return () => {
      cancelAnimationFrame(frame)
      window.clearTimeout(timer)
    }
  }, [value])
  return drawn
}
