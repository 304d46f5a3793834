import type { CellReport, OutOfBounds } from '../cells/cell-report'
import { KINDS } from '../kinds/kinds'
import type { ReadingDraft } from '../reading'

/** Numbers that a row's own ones are judged by where some are out of bounds, and why they may be, as the end of a sentence. */
export interface StandIn {
  sides: Pick<ReadingDraft, 'sideAUohm' | 'sideBUohm'>
  /** Set where sides and conductor are out of bounds alike: their ratio then needs no unit, and no conductor on record. */
  conductorUohm: number | null
  words: string
}

const SIDES = [['side_a_uohm', 'sideAUohm', 'side A'], ['side_b_uohm', 'sideBUohm', 'side B']] as const
const MOST_UOHM = KINDS.readings.fields.find(({ name }) => name === 'side_a_uohm')?.max ?? Infinity
/** Beyond this many µΩ a number that would be usual in another unit is no joint but a wrong unit (limit of sense, no source). */
const OPEN_JOINT_UOHM = 1_000_000

/**
 * A side above the range is an open joint, a lead that was off or a wrong unit, and only a person can tell: it counts as the most that is
 * read, as over range does. Where the conductor is out of bounds by the same factor, the ratio tells without a unit. Null where neither is so.
 */
export function standInOf(draft: ReadingDraft, { outside }: CellReport): StandIn | null {
  if (outside.size === 0) return null
  return alike(draft, outside) ?? overRange(draft, outside)
}

function alike(draft: ReadingDraft, outside: ReadonlyMap<string, OutOfBounds>): StandIn | null {
  if (draft.conductorUohm !== null || draft.conductorBUohm !== null) return null
  const conductor = (outside.get('conductor_uohm') ?? outside.get('conductor_b_uohm'))?.likely
  const [a, b] = SIDES.map(([name]) => outside.get(name)?.likely ?? null)
  if (!conductor || (!a && !b) || [a, b].some((side) => side && side.word !== conductor.word)) return null
  return {
    sides: { sideAUohm: a?.value ?? null, sideBUohm: b?.value ?? null }, conductorUohm: conductor.value,
    words: `sides and conductor are out of range alike, as if they were written in ${conductor.word}, and their ratio needs no unit`,
  }
}

const mayBeOpen = (number: OutOfBounds | undefined): boolean =>
  number !== undefined && number.value > MOST_UOHM && (number.value <= OPEN_JOINT_UOHM || number.likely === null)

function overRange(draft: ReadingDraft, outside: ReadonlyMap<string, OutOfBounds>): StandIn | null {
  const sides = { sideAUohm: draft.sideAUohm, sideBUohm: draft.sideBUohm }
  const over = SIDES.filter(([name]) => mayBeOpen(outside.get(name)))
  for (const [, key] of over) sides[key] = MOST_UOHM
  return over.length === 0 ? null : {
    sides, conductorUohm: null,
    words: `${over.map(([, , words]) => words).join(' and ')} ${over.length === 1 ? 'is' : 'are'} over ${MOST_UOHM.toLocaleString('en-US')} µΩ and ${over.length === 1 ? 'counts' : 'count'} as that: `
      + 'the joint may be open, a lead was off, or the unit is wrong',
  }
}
