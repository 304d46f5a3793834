import { withFullStop } from '@/lib/units/full-stop'
import { formatSure } from '@/lib/units/format'
import type { LengthText } from './position-text'
import type { PlacementReason } from './types'

type Values = NonNullable<PlacementReason['values']>

const FIELD_WORDS: Record<string, string> = {
  circuit: 'circuit', section: 'section', structure_back: 'structure', structure_ahead: 'structure', splice_id: 'splice', phase: 'phase',
  subconductor: 'subconductor', offset_from_structure_m: 'offset from the structure',
}

const said = ({ field, value }: Values): string => `${FIELD_WORDS[String(field)] ?? 'place'} ${value ?? ''}`.trim()
const number = (value: number | string | undefined): number | undefined => (value === undefined || value === '' ? undefined : Number(value))

/** A placing reason as a sentence in plain trade words; lengths as `length` writes metres. */
export function reasonText({ code, values = {} }: PlacementReason, length: LengthText): string {
  return SENTENCES[code](values, length)
}

const SENTENCES: Record<PlacementReason['code'], (values: Values, length: LengthText) => string> = {
  'declared-splice': ({ splice }) => `The reading names splice ${splice}.`,
  'declared-circuit': ({ circuit }) => `The reading names circuit ${circuit}.`,
  'declared-structures': ({ back, ahead }) =>
    `The reading names ${back && ahead ? `structures ${back} and ${ahead}` : `structure ${back || ahead}`}.`,
  'declared-contradicts-position': contradiction,
  'declared-contradicts-declared': disagreement,
  'declared-unknown': unknown,
  'track-matched': ({ count, crew }) =>
    `Matched along the line together with ${Number(count) - 1} other readings of the same ${crew === undefined ? 'survey' : 'crew'}.`,
  'circuit-by-track': ({ circuit, others }) =>
    `Circuit ${circuit} is taken from the readings before and after it: by its own position it could be on ${others} as well.`,
  'track-broken': () => 'Too few readings in a row to follow them along the line: placed by its own position.',
  'track-residuals': ({ count }) =>
    `The ${count} readings in a row here do not follow one line as closely as their accuracy says: placed by its own position.`,
  'track-offset': ({ offsetM }, length) => {
    const offset = Number(offsetM)
    return `The readings lie about ${length(Math.abs(offset))} ${offset < 0 ? 'left' : 'right'} of the line, looking ahead.`
  },
  'circuits-in-turn': () => 'The readings go to and fro between circuits: placed by its own position.',
  'low-probability': ({ probability, offsetM, sigmaM }, length) =>
    `${formatSure(Number(probability))} sure of the circuit: the best fit is ${length(Number(offsetM))} from its conductor, ` +
    `and the position is good to about ${length(Number(sigmaM))}.`,
  'nothing-in-reach': ({ reachM }, length) => `No line lies within ${length(Number(reachM))} of the position.`,
  'two-splices-in-reach': ({ count, reachM }, length) =>
    `${count} splices lie within ${length(Number(reachM))} along the line: say which one it is.`,
  'phase-missing': ({ count }) => Number(count) > 0
    ? `${count} splices of several phases are in reach and the reading gives no phase.`
    : 'The reading would be a new splice, and it gives neither phase nor position.',
  'phase-from-position': ({ position, phase }) => `The phasing table has phase ${phase} in position ${position} here.`,
  'phase-not-confirmed': () => 'Phase not confirmed.',
  'shared-structures-no-offset': ({ circuit, other }) =>
    `${circuit} and ${other} share these structures and it is not known on which side each hangs: position cannot tell them apart.`,
  'no-position': () => 'The reading has no position, and what it names does not fix one place.',
  'position-zero': () => 'The position is 0, 0: the receiver had no fix.',
  'new-splice': () => 'No known splice is in reach: a new one, found by survey.',
  'same-pass-different-label': ({ apartM }, length) => number(apartM) === undefined
    ? 'Readings of one pass here carry different labels or pictures: they may be different splices.'
    : `Readings of one pass here lie up to ${length(Number(apartM))} apart: they may be different splices.`,
  'person-accepted': () => 'Accepted by a person.',
  'person-dragged': () => 'Moved here by a person.',
  'person-rejected': ({ reason }) => withFullStop(reason ? `Set aside by a person: ${String(reason)}` : 'Set aside by a person'),
}

function unknown(values: Values): string {
  const { field, known, circuit, value, back } = values
  if (field === 'splice_id' && known) return `The reading names splice ${value}, which is not known; splice ${known} is known here.`
  if (field === 'structure_ahead' && back) return `Structures ${back} and ${value} do not stand on one section.`
  return `The reading names ${said(values)}, which is not known${circuit ? ` on circuit ${circuit}` : ''}.`
}

/** Of a reading without a position, whose names alone would have to place it. */
function disagreement({ value, splice, known, unknown: isUnknown }: Values): string {
  if (isUnknown) return `The reading names circuit ${value}, which is not known, and splice ${splice}, which there is once: on circuit ${known}.`
  return `The reading names splice ${splice}, which is on circuit ${known}, and ${value}: the two do not agree.`
}

function contradiction(values: Values, length: LengthText): string {
  const { field, value, known, position, splice, distanceM, other, against } = values
  if (field === 'phase' && position) {
    return `The reading says phase ${value}; the phasing table has phase ${known} in position ${position} here.`
  }
  if (field === 'phase' || field === 'subconductor') return `The reading says ${field} ${value}; splice ${splice} is on ${field} ${known}.`
  if (field === 'offset_from_structure_m') return `The offset of ${length(Number(value))} leads out of the span that the reading names.`
  if (against) return `Splice ${value} is not on the ${against === 'structures' ? 'span' : 'circuit'} that the reading names.`
  if (other) return `The reading names ${value}, but its position speaks for ${other}.`
  const far = number(distanceM)
  return `The reading names ${said(values)}, but its position is ${far === undefined ? 'far' : length(far)} away from it.`
}
