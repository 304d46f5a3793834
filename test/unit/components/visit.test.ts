import { describe, expect, it } from 'vitest'
import { APART_MS, arrive, changesHref, formatVisit, parseVisit, sinceOf } from '@/components/operations/changes/visit'
import { causeWords, directionsText, gistText, hasChanges, readingsText } from '@/components/operations/changes/words'
import type { ChangePart, PartOf } from '@/lib/contract/changes'

const T0 = '2026-11-29T09:00:00.000Z'
const later = (ms: number) => new Date(Date.parse(T0) + ms).toISOString()

describe('the last visit', () => {
  it('is none at first: a week is told, and said to be one', () => {
    const first = arrive(parseVisit(undefined), T0)
    expect(first).toEqual({ previous: null, seen: T0 })
    expect(sinceOf(first, Date.parse(T0))).toEqual({ at: '2026-11-22T09:00:00.000Z', of: 'first' })
  })

  it('stays what it was over reloads and begins anew only after half an hour away', () => {
    const visit = { previous: null, seen: T0 }
    const again = arrive(visit, later(APART_MS - 1))
    expect(again).toEqual({ previous: null, seen: later(APART_MS - 1) })
    const next = arrive(visit, later(APART_MS))
    expect(next).toEqual({ previous: T0, seen: later(APART_MS) })
    expect(arrive(next, later(APART_MS + 60_000)).previous).toBe(T0)
    expect(sinceOf(next, 0)).toEqual({ at: T0, of: 'visit' })
  })

  it('is kept as text and read back, and anything else counts as nothing', () => {
    const visit = { previous: T0, seen: later(5) }
    expect(parseVisit(formatVisit(visit))).toEqual(visit)
    expect(parseVisit(formatVisit({ previous: null, seen: T0 }))).toEqual({ previous: null, seen: T0 })
    for (const text of ['', '~', 'yesterday~', '2026-13-45T99:00Z~x', '<script>~1']) expect(parseVisit(text), text).toEqual({ previous: null, seen: null })
  })
})

const classes = (rise: number, lost: number, fall: number, fresh: number): PartOf<'class'> => (
  { kind: 'class', count: rise + lost + fall + fresh, directions: { rise, lost, fall, new: fresh }, items: [], next_cursor: null })
const readings = (count: number): PartOf<'reading'> => ({ kind: 'reading', count, items: [], next_cursor: null })

describe('what changed in words', () => {
  it('is one line: classes, how many of them worse, and readings', () => {
    expect(gistText(classes(2, 0, 1, 40), readings(210))).toBe('3 classes (2 worse), 210 readings')
    expect(gistText(classes(1, 0, 0, 0), readings(1))).toBe('1 class worse, 1 reading')
    expect(gistText(classes(0, 0, 1, 0), readings(0))).toBe('1 class')
    expect(gistText(classes(0, 0, 0, 12), readings(1_200))).toBe('1,200 readings')
    expect(gistText(undefined, undefined)).toBe('no class, no readings')
  })

  it('names what there is of each direction, the worse first', () => {
    expect(directionsText({ rise: 3, lost: 1, fall: 2, new: 40 })).toBe('3 worse, 1 not known any more, 2 better, 40 first known, electrically sound')
    expect(directionsText({ rise: 0, lost: 0, fall: 2, new: 0 })).toBe('2 better')
  })

  it('counts what waits now as no change', () => {
    const waiting: ChangePart = { kind: 'waiting', count: 16, items: [], next_cursor: null }
    expect(hasChanges([waiting, readings(0)])).toBe(false)
    expect(hasChanges([waiting, readings(1)])).toBe(true)
  })

  it('says what became of readings, and by what a class changed', () => {
    const of = { import_id: 1, file_name: 'a.csv', survey: 'S', circuit_id: 1, circuit: 'C', at: T0, by: 'me', readings: 12, placed: 10, review: 1, set_aside: 1 }
    expect(readingsText({ ...of, undone: false })).toBe('10 placed, 1 for review, 1 set aside')
    expect(readingsText({ ...of, undone: true })).toBe('import undone, they count for nothing')
    expect(causeWords({ cause: 'import', file_name: 'spring.csv' })).toBe('After an import: spring.csv')
    expect(causeWords({ cause: 'policy', file_name: null })).toBe('After a change of policy')
  })

  it('has an address with its moment and its circuits', () => {
    expect(changesHref(T0, [3, 7])).toBe('/operations/changes?since=2026-11-29T09%3A00%3A00.000Z&circuit=3%2C7')
    expect(changesHref(T0, undefined)).not.toContain('circuit')
  })
})
