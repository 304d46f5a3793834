import { conductorByCode, expectedUohm, type Assessment, type Policy, type ResistanceEvidence } from '@/lib/condition'
import { conductorTemperatureC } from '@/lib/condition/conductor-check'
import { ELECTRODE_SPAN_M } from '@/lib/condition/limits'
import { formatLength, formatRatio, formatResistance, type UnitSystem } from '@/lib/units/format'
import type { Inputs } from './address'
import type { FieldKey, Spoil } from './spoil'

interface Known {
  title: string
  fields: readonly FieldKey[] | 'side'
}

/** Reasons of the engine that speak of how the reading was taken, and where on the form they stand. */
const OF_READING: Record<string, Known> = {
  'ratio-out-of-range': { title: 'Out of any ratio: was milliohm written as microohm?', fields: 'side' },
  'implausible-side': { title: 'Both electrodes were on the barrel', fields: 'side' },
  'interface-not-proved': { title: 'Hardly more than the barrel alone', fields: 'side' },
  'electrode-off-barrel': { title: 'Not on the barrel', fields: ['inboard'] },
  'electrode-within-crimp': { title: 'Not past the crimp', fields: ['inboard'] },
  'measured-governs': { title: 'Two ratios', fields: ['c'] },
  'conductor-reference-suspect': { title: 'Does not fit this conductor and span', fields: ['c', 'conductor', 'span'] },
  'conductor-reference-warn': { title: 'Somewhat off the table', fields: ['c'] },
  'conductor-references-differ': { title: 'The two ends differ', fields: ['c2'] },
  'no-conductor-reference': { title: 'Nothing to compare with: read the conductor', fields: ['c'] },
  'conductor-from-table': { title: 'Not read: the table stands in', fields: ['c'] },
  'span-refused': { title: 'Too different from the other span for a ratio', fields: ['cspan'] },
  'span-converted': { title: 'Unequal spans: the conductor is converted', fields: ['cspan'] },
  'span-unknown': { title: 'Not noted: the conductor cannot be checked', fields: ['span'] },
  'low-test-current': { title: 'Too little for the instrument', fields: ['i'] },
  'single-layer-core': { title: 'Live on one layer over steel: reads high', fields: ['c'] },
}

/**
 * What spoils three micro-ohm readings. The engine's own reasons come with their sentences, then what it cannot see from one reading.
 * @param sentences of the assessment's reasons, in their order
 */
export function resistanceSpoils(
  of: Inputs, evidence: ResistanceEvidence, assessment: Assessment, sentences: readonly string[], policy: Policy, system: UnitSystem,
): Spoil[] {
  const spoils: Spoil[] = []
  assessment.reasons.forEach(({ code, values }, i) => {
    const known = OF_READING[code]
    const text = sentences[i]
    if (!known || text === undefined) return
    const fields: readonly FieldKey[] = known.fields === 'side' ? [values.side === 'A' ? 'a' : 'b'] : known.fields
    spoils.push({ code, fields, title: known.title, text })
  })
  const swapped = conductorSwapped(of, evidence, policy)
  const suspect = assessment.flags.includes('conductor-reference-suspect')
  if (suspect && swapped) spoils.unshift(swapped)
  const span = suspect ? otherSpan(evidence, of, policy, system) : null
  if (span) spoils.push(span)
  const sides = sidesSwapped(of, assessment, policy)
  if (sides) spoils.push(sides)
  const unnamed = conductorUnnamed(of)
  if (unnamed) spoils.push(unnamed)
  const place = beyondMiddle(of, system)
  if (place) spoils.push(place)
  return spoils
}

const tableUohm = (of: Inputs, evidence: ResistanceEvidence, policy: Policy): number | null => {
  const conductor = of.conductor === null ? null : conductorByCode(of.conductor)
  if (!conductor || of.span === null) return null
  return expectedUohm(conductor, of.span, conductorTemperatureC([evidence], policy))
}

/** The conductor's figure does not fit and a side's does: the two were written in each other's place. */
function conductorSwapped(of: Inputs, evidence: ResistanceEvidence, policy: Policy): Spoil | null {
  const expected = tableUohm(of, evidence, policy)
  if (expected === null || of.c === null || (of.cspan !== null && of.cspan !== of.span)) return null
  const fits = (uohm: number | null): uohm is number => uohm !== null && Math.abs(uohm / expected - 1) <= policy.reference.okRel
  const side = fits(of.a) ? 'A' : fits(of.b) ? 'B' : null
  if (side === null) return null
  return {
    code: 'conductor-swapped', fields: ['c', side === 'A' ? 'a' : 'b'], title: `Swapped with side ${side}?`,
    text: `The conductor’s ${formatResistance(of.c)} does not fit ${of.conductor}, but side ${side} with `
      + `${formatResistance((side === 'A' ? of.a : of.b) ?? Number.NaN)} reads like the conductor itself (${formatResistance(expected)}). `
      + 'Look at the notes: were the two written in each other’s place?',
  }
}

/** The ratio stands by the reading alone then: no table says whether it fits. */
function conductorUnnamed(of: Inputs): Spoil | null {
  if (of.c === null || of.conductor !== null) return null
  return {
    code: 'conductor-unnamed', fields: ['conductor'], title: 'Not named: the conductor cannot be checked',
    text: 'Without a code word nothing tells whether the conductor’s reading fits it, and the ratio is as wrong as that reading. Take the code word from the line’s record, or have it measured.',
  }
}

function otherSpan(evidence: ResistanceEvidence, of: Inputs, policy: Policy, system: UnitSystem): Spoil | null {
  const expected = tableUohm(of, evidence, policy)
  if (expected === null || of.c === null || of.span === null) return null
  const fittingM = (of.span * of.c) / expected
  if (fittingM < ELECTRODE_SPAN_M.least || fittingM > ELECTRODE_SPAN_M.greatest) return null
  return {
    code: 'other-span', fields: ['span'], title: `It would fit ${formatLength(fittingM, system)}`,
    text: `Over ${formatLength(fittingM, system)} this reading would fit ${of.conductor}: was the conductor read over another span than noted?`,
  }
}

/** Crews do exchange sides between surveys. A side cannot heal: where each fits the other's last ratio and not its own, they were. */
function sidesSwapped(of: Inputs, { sides }: Assessment, policy: Policy): Spoil | null {
  const a = sides.find(({ side }) => side === 'A')
  const b = sides.find(({ side }) => side === 'B')
  if (!a || !b || of.a0 === null || of.b0 === null) return null
  const away = (now: typeof a, before: number) => Math.log(now.ratio / before) ** 2 / (2 * (now.uRatio / now.ratio) ** 2)
  const { statistic } = policy.conflict
  const straight = Math.max(away(a, of.a0), away(b, of.b0))
  const crossed = Math.max(away(a, of.b0), away(b, of.a0))
  if (straight <= statistic || crossed > statistic) return null
  return {
    code: 'sides-swapped', fields: ['a', 'b'], title: 'Sides exchanged since last time?',
    text: `Last time side A had ${formatRatio(of.a0)} and side B ${formatRatio(of.b0)}; now they read ${formatRatio(a.ratio)} and `
      + `${formatRatio(b.ratio)}, each like the other did. Check which structure each side faces. The class stands either way; the history per side does not.`,
  }
}

function beyondMiddle(of: Inputs, system: UnitSystem): Spoil | null {
  if (of.inboard === null || of.length === null || of.inboard <= of.length / 2) return null
  return {
    code: 'beyond-middle', fields: ['inboard'], title: 'Beyond the middle of the barrel',
    text: `The barrel electrode sat ${formatLength(of.inboard, system)} from the mouth, beyond the middle of a barrel of ${formatLength(of.length, system)}: `
      + 'the side then holds part of the other one. Read each side with the electrode on its own half.',
  }
}
