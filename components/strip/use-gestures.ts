'use client'
import { useEffect, useRef, type RefObject } from 'react'
import { panned, wholeOf, zoomed, type Stretch } from './axis'

const CLICK_PX = 4
const WHEEL_STEP = 0.0016

interface Wanted {
  stretch: Stretch
  whole: ReturnType<typeof wholeOf>
  fromPx: number
  toPx: number
  onStretch(stretch: Stretch): void
}

/** Wheel and pinch zoom about the pointer, dragging pans, a double click shows the whole line. Says whether a press was a drag, so that it picks nothing. */
export function useGestures(element: RefObject<HTMLElement | null>, wanted: Wanted): RefObject<boolean> {
  const latest = useRef(wanted)
  useEffect(() => { latest.current = wanted })
  const dragged = useRef(false)

  useEffect(() => {
    const frame = element.current
    if (!frame) return
    const pointers = new Map<number, number>()
    let startPx = 0
    const xOf = (e: MouseEvent) => e.clientX - frame.getBoundingClientRect().left
    const metresPerPx = () => (latest.current.stretch.toM - latest.current.stretch.fromM) / (latest.current.toPx - latest.current.fromPx)
    const metresAt = (xPx: number) => latest.current.stretch.fromM + (xPx - latest.current.fromPx) * metresPerPx()
    const show = (stretch: Stretch) => {
      latest.current = { ...latest.current, stretch } // several events may come between two frames
      latest.current.onStretch(stretch)
    }
    const onWheel = (e: WheelEvent) => {
      e.preventDefault()
      const { stretch, whole } = latest.current
      const sideways = e.shiftKey ? e.deltaY : e.deltaX
      if (e.shiftKey || Math.abs(e.deltaX) > Math.abs(e.deltaY)) show(panned(stretch, sideways * metresPerPx(), whole))
      else show(zoomed(stretch, metresAt(xOf(e)), Math.exp(e.deltaY * (e.ctrlKey ? 6 : 1) * WHEEL_STEP), whole))
    }
    const onDown = (e: PointerEvent) => {
      if (e.button !== 0) return
      pointers.set(e.pointerId, xOf(e))
      if (pointers.size === 1) {
        dragged.current = false
        startPx = xOf(e)
      }
    }
    const onMove = (e: PointerEvent) => {
      const beforePx = pointers.get(e.pointerId)
      if (beforePx === undefined) return
      const nowPx = xOf(e)
      const { stretch, whole } = latest.current
      if (pointers.size === 1) {
        if (!dragged.current && Math.abs(nowPx - startPx) < CLICK_PX) return
        if (!dragged.current) frame.setPointerCapture(e.pointerId)
        dragged.current = true
        show(panned(stretch, (beforePx - nowPx) * metresPerPx(), whole))
      } else {
        dragged.current = true
        const otherPx = [...pointers].find(([id]) => id !== e.pointerId)?.[1] ?? nowPx
        const factor = Math.max(8, Math.abs(beforePx - otherPx)) / Math.max(8, Math.abs(nowPx - otherPx))
        show(zoomed(stretch, metresAt(otherPx), factor, whole))
      }
      pointers.set(e.pointerId, nowPx)
    }
    const onUp = (e: PointerEvent) => { pointers.delete(e.pointerId) }
    const onDouble = () => show(latest.current.whole)
    frame.addEventListener('wheel', onWheel, { passive: false })
    frame.addEventListener('pointerdown', onDown)
    frame.addEventListener('pointermove', onMove)
    for (const end of ['pointerup', 'pointercancel'] as const) frame.addEventListener(end, onUp)
    frame.addEventListener('dblclick', onDouble)
    return () => {
      frame.removeEventListener('wheel', onWheel)
      frame.removeEventListener('pointerdown', onDown)
      frame.removeEventListener('pointermove', onMove)
      for (const end of ['pointerup', 'pointercancel'] as const) frame.removeEventListener(end, onUp)
      frame.removeEventListener('dblclick', onDouble)
    }
  }, [element])
  return dragged
}
