import { describe, expect, it } from 'vitest'
import { stepM } from '@/components/intake/review/decision'
import { commandOf, isTypedOn, legendOf, type Stroke } from '@/components/intake/review/keys'

const press = (key: string, over: Partial<Stroke> = {}) =>
  commandOf({ key, ctrl: false, shift: false, alt: false, repeat: false, focus: 'page', moving: false, ...over })

describe('the keys of the review screen', () => {
  it('choose, accept, go on and take back', () => {
    expect(press('2')).toEqual({ do: 'candidate', index: 1 })
    expect(press('Enter')).toEqual({ do: 'accept' })
    expect(press('j')).toEqual({ do: 'next' })
    expect(press('ArrowUp')).toEqual({ do: 'previous' })
    expect(press('u')).toEqual({ do: 'undo' })
    expect(press('z', { ctrl: true })).toEqual({ do: 'undo' })
  })

  it('leave letters and Enter to a text field, but not Escape', () => {
    expect(press('x', { focus: 'text' })).toBeNull()
    expect(press('Enter', { focus: 'text' })).toBeNull()
    expect(press('z', { ctrl: true, focus: 'text' })).toBeNull()
    expect(press('Escape', { focus: 'text' })).toEqual({ do: 'cancel' })
  })

  it('place nothing while Enter is held down: the reading after this one has not been looked at', () => {
    expect(press('Enter', { repeat: true })).toBeNull()
  })

  it('leave Enter to the button that has the focus', () => {
    expect(press('Enter', { focus: 'control' })).toBeNull()
  })

  it('leave the arrows to a choice and to the map, until the mark is being moved', () => {
    expect(press('ArrowDown', { focus: 'choice' })).toBeNull()
    expect(press('ArrowDown', { focus: 'map' })).toBeNull()
    expect(press('ArrowDown', { focus: 'map', moving: true })).toEqual({ do: 'nudge', east: 0, north: -1, big: false })
    expect(press('ArrowLeft', { moving: true, shift: true })).toEqual({ do: 'nudge', east: -1, north: 0, big: true })
  })

  it('are still words for a while after a reason that was typed: Escape, Ctrl and what stands in a text are not', () => {
    const typedOn = (key: string, over: Partial<Stroke> = {}, nowMs = 100) =>
      isTypedOn({ key, ctrl: false, shift: false, alt: false, repeat: false, focus: 'page', moving: false, ...over }, nowMs, 700)
    for (const key of ['x', 'n', '2', 'Enter', ' ', 'u']) expect(typedOn(key)).toBe(true)
    for (const key of ['Escape', 'Tab', 'ArrowDown']) expect(typedOn(key)).toBe(false)
    expect([typedOn('z', { ctrl: true }), typedOn('x', { focus: 'text' }), typedOn('x', {}, 700)]).toEqual([false, false, false])
  })

  it('leave combinations with Ctrl and Alt to the browser', () => {
    expect(press('a', { ctrl: true })).toBeNull()
    expect(press('1', { alt: true })).toBeNull()
  })

  it('take back what was rejected, and say only what is true of what is looked at', () => {
    expect(press('t')).toEqual({ do: 'take-back' })
    const keys = (state: 'review' | 'rejected') => legendOf('metric', state).flatMap((l) => l.keys)
    expect(keys('rejected')).toEqual(['t', 'u', 'Ctrl Z', 'j', '↓', 'k', '↑', '?'])
    expect(keys('review')).not.toContain('t')
    const strokes: Record<string, string> = { '↓': 'ArrowDown', '↑': 'ArrowUp', 'Esc': 'Escape' }
    for (const key of keys('review').filter((k) => k !== '…' && k !== 'Ctrl Z')) expect(press(strokes[key] ?? key)).not.toBeNull()
  })

  it('all stand in the legend', () => {
    const named = legendOf('metric', 'review').flatMap((l) => l.keys)
    for (const key of ['Enter', 's', 'n', 'a', 'b', 'c', 'm', 'x', 'u', 'j', 'k', '?']) expect(named).toContain(key)
  })

  it('say how far the mark moves in the units of the reader', () => {
    const move = (system: 'us' | 'metric') => legendOf(system, 'review').find((l) => l.keys.includes('m'))?.does
    expect(move('us')).toContain('3 ft, with Shift 30 ft')
    expect(move('metric')).toContain('1 m, with Shift 10 m')
    expect([stepM('us', false), stepM('us', true), stepM('metric', true)]).toEqual([0.9144, 9.144, 10])
  })
})
