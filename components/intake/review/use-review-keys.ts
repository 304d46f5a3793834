'use client'
import { useEffect, useRef, type RefObject } from 'react'
import { commandOf, isTypedOn, TYPING_PAUSE_MS, type ReviewCommand, type Stroke } from './keys'

const OWN_KEYS = '[role="dialog"], [role="listbox"], [role="menu"], [role="combobox"]'

function focusOf(target: EventTarget | null): Stroke['focus'] {
  if (!(target instanceof HTMLElement)) return 'page'
  if (target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || target.isContentEditable) return 'text'
  if (target instanceof HTMLInputElement) return target.type === 'radio' || target.type === 'checkbox' ? 'choice' : 'text'
  if (target.closest('[role="tablist"], [role="group"]') && target.closest('button')) return 'control'
  if (target.closest('button, a, summary')) return 'control'
  return target.closest('canvas, .maplibregl-map') ? 'map' : 'page'
}

/**
 * Hands key strokes on the page to `run`, which says whether it took them. Dialogs, lists and menus keep their own.
 * @param quietUntilRef until when, ms of performance.now(), strokes are still part of what was typed; moved on by each of them
 */
export function useReviewKeys(moving: boolean, run: (command: ReviewCommand) => boolean, quietUntilRef: RefObject<number>): void {
  const latest = useRef({ moving, run })
  useEffect(() => {
    latest.current = { moving, run }
  })
  useEffect(() => {
    const press = (e: KeyboardEvent) => {
      if (e.defaultPrevented || (e.target instanceof Element && e.target.closest(OWN_KEYS))) return
      const stroke: Stroke = {
        key: e.key,
        ctrl: e.ctrlKey || e.metaKey,
        shift: e.shiftKey,
        alt: e.altKey,
        repeat: e.repeat,
        focus: focusOf(e.target),
        moving: latest.current.moving,
      }
      if (isTypedOn(stroke, e.timeStamp, quietUntilRef.current)) {
        quietUntilRef.current = e.timeStamp + TYPING_PAUSE_MS
        e.preventDefault()
        e.stopPropagation()
        return
      }
      const command = commandOf(stroke)
      if (command === null || !latest.current.run(command)) return
      e.preventDefault()
      e.stopPropagation() // the map would pan with the same arrows
    }
    // Who takes the pointer has stopped typing.
    const point = () => {
      quietUntilRef.current = 0
    }
    window.addEventListener('keydown', press, { capture: true })
    window.addEventListener('pointerdown', point, { capture: true })
    return () => {
      window.removeEventListener('keydown', press, { capture: true })
      window.removeEventListener('pointerdown', point, { capture: true })
    }
  }, [quietUntilRef])
}
