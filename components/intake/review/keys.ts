import type { UnitSystem } from '@/lib/units/format'
import { stepWords } from './decision'

/** What a key asks for on the review screen. */
export type ReviewCommand =
  | { do: 'next' }
  | { do: 'previous' }
  | { do: 'accept' }
  | { do: 'undo' }
  | { do: 'legend' }
  | { do: 'reject' }
  | { do: 'move' }
  | { do: 'cancel' }
  | { do: 'take-back' }
  | { do: 'splice' }
  | { do: 'new-splice' }
  | { do: 'candidate'; index: number }
  | { do: 'phase'; phase: string }
  | { do: 'nudge'; east: number; north: number; big: boolean }

export interface Stroke {
  key: string
  ctrl: boolean
  shift: boolean
  alt: boolean
  /** The key is held down and this is not its first stroke. */
  repeat: boolean
  /** What holds the focus: text takes every letter, choices their arrows, controls their Enter, a map its arrows. */
  focus: 'text' | 'choice' | 'control' | 'map' | 'page'
  /** The mark is being moved by arrow keys. */
  moving: boolean
}

const ARROWS: Record<string, { east: number; north: number }> = {
  ArrowUp: { east: 0, north: 1 },
  ArrowDown: { east: 0, north: -1 },
  ArrowLeft: { east: -1, north: 0 },
  ArrowRight: { east: 1, north: 0 },
}
const LETTERS: Record<string, ReviewCommand> = {
  j: { do: 'next' },
  k: { do: 'previous' },
  u: { do: 'undo' },
  '?': { do: 'legend' },
  x: { do: 'reject' },
  m: { do: 'move' },
  s: { do: 'splice' },
  n: { do: 'new-splice' },
  t: { do: 'take-back' },
  a: { do: 'phase', phase: 'A' },
  b: { do: 'phase', phase: 'B' },
  c: { do: 'phase', phase: 'C' },
}

/** A person who types a reason and ends it by Enter may be typing on: so long nothing is done by a key that was meant for the words. */
export const TYPING_PAUSE_MS = 700

/** Whether a stroke still belongs to what was typed before it; Escape, Ctrl and Alt never do, nor what is typed into a text. */
export const isTypedOn = ({ key, ctrl, alt, focus }: Stroke, nowMs: number, quietUntilMs: number): boolean =>
  nowMs < quietUntilMs && !ctrl && !alt && focus !== 'text' && (key.length === 1 || key === 'Enter')

/** The command of a key stroke; null where the key belongs to what has the focus, or to nobody. */
export function commandOf({ key, ctrl, shift, alt, repeat, focus, moving }: Stroke): ReviewCommand | null {
  if (alt) return null
  if (key === 'Escape') return { do: 'cancel' }
  if (focus === 'text') return null
  if (ctrl) return key.toLowerCase() === 'z' && !shift ? { do: 'undo' } : null
  const arrow = ARROWS[key]
  if (arrow) {
    if (moving) return { do: 'nudge', ...arrow, big: shift }
    if (focus === 'choice' || focus === 'map') return null
    return arrow.north === 0 ? null : { do: arrow.north < 0 ? 'next' : 'previous' }
  }
  // Held down, Enter would decide on the reading after this one before anybody has seen it.
  if (key === 'Enter') return focus === 'control' || repeat ? null : { do: 'accept' }
  if (/^[1-9]$/.test(key)) return { do: 'candidate', index: Number(key) - 1 }
  return LETTERS[key.toLowerCase()] ?? null
}

/** The legend, in the order people need it: what waits for a decision, or what was set aside. */
export const legendOf = (system: UnitSystem, state: 'review' | 'rejected'): readonly { keys: readonly string[]; does: string }[] => [
  ...(state === 'review' ? DECIDING(system) : [{ keys: ['t'], does: 'Take back into review' }]),
  { keys: ['u', 'Ctrl Z'], does: 'Undo the last decision' },
  { keys: ['j', '↓'], does: 'Next reading' },
  { keys: ['k', '↑'], does: 'Previous reading' },
  { keys: ['?'], does: 'Show or hide this; Esc hides it too' },
]

const DECIDING = (system: UnitSystem) => [
  { keys: ['1', '…', '9'], does: 'Choose a candidate' },
  { keys: ['s'], does: 'Next splice in reach' },
  { keys: ['n'], does: 'A new splice here' },
  { keys: ['a', 'b', 'c'], does: 'Set the phase, where the reading gives none' },
  { keys: ['Enter'], does: 'Place it there' },
  { keys: ['m'], does: `Move the mark with the arrow keys, ${stepWords(system)}` },
  { keys: ['x'], does: 'Set aside: type why, then Enter' },
  { keys: ['Esc'], does: 'Put the mark back, or keep it in review' },
]
