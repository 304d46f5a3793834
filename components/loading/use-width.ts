'use client'
import { useLayoutEffect, useRef, useState, type RefObject } from 'react'

const UNMEASURED_PX = 900

/** How wide an element stands on screen, CSS px; followed as it changes. */
export function useWidth<E extends HTMLElement>(): [ref: RefObject<E | null>, widthPx: number] {
  const ref = useRef<E>(null)
  const [widthPx, setWidth] = useState(UNMEASURED_PX)
  useLayoutEffect(() => {
    const element = ref.current
    if (!element) return
    const measure = () => setWidth(Math.max(1, Math.round(element.clientWidth)))
    measure()
    const watching = new ResizeObserver(measure)
    watching.observe(element)
    return () => watching.disconnect()
  }, [])
  return [ref, widthPx]
}
