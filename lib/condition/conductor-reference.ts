import { conductorsThatFit, conductorTemperatureC, expectedUohm, referenceBand } from './conductor-check'
import type { Conductor } from './conductor-table'
import type { Context } from './context'
import { isElectrodeSpan, isResistance, RESISTANCE_UOHM } from './limits'
import type { Policy } from './policy'
import type { AssessmentFlag, Reason, ResistanceEvidence } from './types'
import { instrumentOf, instrumentUncertainty, meanOf, uncertaintyOfMean } from './uncertainty'

/** No ratio can be formed; the reasons say why. */
export interface NoReference {
  basis: 'none'
  flags: AssessmentFlag[]
  reasons: Reason[]
}

/** What stands below the line of the ratio, for one electrode span. */
export interface ConductorReference {
  uohm: number
  u: number
  basis: 'measured' | 'table'
  /** A lower reference that stands in its place, since the worse ratio governs: the conductor without its core's part (single-layer
   * ACSR read live), or the table where the reading is too high to be true. */
  lower: { uohm: number; u: number; basis: 'dc-equivalent' | 'table' } | null
  /** What the table has for a reading that is somewhat off it: the reading governs, and what the table would make of the side is said beside it. */
  tableUohm: number | null
  flags: AssessmentFlag[]
  reasons: Reason[]
  readingIds: (number | string)[]
}

interface End {
  raw: number[]
  converted: number[]
}

interface Collected {
  a: End | null
  b: End | null
  /** Spans that were not equal and were converted; null where all were. */
  convertedFromM: number | null
  refusedSpanM: number | null
  outOfRange: Reason[]
  readingIds: (number | string)[]
}

function collect(readings: readonly ResistanceEvidence[], spanM: number | undefined, policy: Policy): Collected {
  const found: Collected = { a: null, b: null, convertedFromM: null, refusedSpanM: null, outOfRange: [], readingIds: [] }
  for (const reading of readings) {
    if (reading.conductorUohm === undefined && reading.conductorBUohm === undefined) continue
    const ownSpanM = usableSpan(reading.conductorSpanM) ?? usableSpan(reading.electrodeSpanM)
    const factor = spanM === undefined || ownSpanM === undefined ? 1 : spanM / ownSpanM
    const away = Math.abs(factor - 1)
    if (away > policy.span.refuseRel) {
      found.refusedSpanM = ownSpanM ?? null
      continue
    }
    const converts = away > policy.span.equalRel
    if (converts) found.convertedFromM = ownSpanM ?? null
    found.a = withReading(found.a, reading.conductorUohm, reading, 'conductorUohm', converts ? factor : 1, found)
    found.b = withReading(found.b, reading.conductorBUohm, reading, 'conductorBUohm', converts ? factor : 1, found)
  }
  return found
}

function withReading(
  end: End | null, uohm: number | undefined, reading: ResistanceEvidence, field: 'conductorUohm' | 'conductorBUohm', factor: number, found: Collected,
): End | null {
  if (uohm === undefined) return end
  if (!isResistance(uohm)) {
    found.outOfRange.push(outOfRange(reading, field, uohm))
    return end
  }
  if (!found.readingIds.includes(reading.readingId)) found.readingIds.push(reading.readingId)
  if (end === null) return { raw: [uohm], converted: [uohm * factor] }
  end.raw.push(uohm)
  end.converted.push(uohm * factor)
  return end
}

export const outOfRange = (reading: ResistanceEvidence, field: string, uohm: number): Reason => ({
  code: 'reading-out-of-range',
  values: { field, uohm: Number.isFinite(uohm) ? uohm : null, leastUohm: RESISTANCE_UOHM.least, greatestUohm: RESISTANCE_UOHM.greatest },
  readingIds: [reading.readingId],
})

export const usableSpan = (spanM: number | undefined): number | undefined =>
  spanM !== undefined && isElectrodeSpan(spanM) ? spanM : undefined

/**
 * The conductor reference of one visit for an electrode span: the mean of the readings at both ends where they agree, the
 * lower where they do not (it gives the higher ratio), the table where nobody measured.
 * @param spanM span of the side's electrodes; absent where nobody noted it, and then the table cannot be asked
 */
export function conductorReference(
  readings: readonly ResistanceEvidence[], spanM: number | undefined, live: boolean, context: Context,
): ConductorReference | NoReference {
  const { policy } = context
  const found = collect(readings, spanM, policy)
  const { a, b } = found
  const only = a ?? b
  if (only === null) {
    if (found.refusedSpanM !== null) {
      const refusal: Reason = {
        code: 'span-refused', values: { sideSpanM: spanM ?? null, conductorSpanM: found.refusedSpanM, refuseRel: policy.span.refuseRel },
      }
      return { basis: 'none', flags: [], reasons: [...found.outOfRange, refusal] }
    }
    return fromTable(readings, spanM, context, found.outOfRange)
  }
  const reference: ConductorReference = {
    uohm: 0, u: 0, basis: 'measured', lower: null, tableUohm: null, flags: [], reasons: found.outOfRange, readingIds: found.readingIds,
  }
  const end = a && b ? chosenEnd(a, b, policy, reference) : only
  measured(reference, end, readings, found.convertedFromM, spanM, policy)
  if (context.conductor && spanM !== undefined) compare(reference, context.conductor, spanM, readings, live, context)
  if (context.singleLayer && live && !reference.lower) addDcEquivalent(reference, spanM, readings, context)
  return reference
}

function chosenEnd(a: End, b: End, policy: Policy, reference: ConductorReference): End {
  const meanA = meanOf(a.converted)
  const meanB = meanOf(b.converted)
  if (Math.max(meanA, meanB) / Math.min(meanA, meanB) - 1 < policy.reference.endsAgreeRel) {
    return { raw: [...a.raw, ...b.raw], converted: [...a.converted, ...b.converted] }
  }
  reference.flags.push('conductor-references-differ')
  reference.reasons.push({ code: 'conductor-references-differ', values: { aUohm: meanA, bUohm: meanB, usedUohm: Math.min(meanA, meanB) } })
  return meanA <= meanB ? a : b
}

function measured(
  reference: ConductorReference, end: End, readings: readonly ResistanceEvidence[], convertedFromM: number | null,
  spanM: number | undefined, policy: Policy,
): void {
  const rawUohm = meanOf(end.raw)
  reference.uohm = meanOf(end.converted)
  const instrumentU = instrumentUncertainty(rawUohm, instrumentOf(readings[0]?.instrument, policy)) * (reference.uohm / rawUohm)
  reference.u = uncertaintyOfMean(end.converted, instrumentU, policy)
  if (convertedFromM === null || spanM === undefined) return
  const ofSpans = policy.span.uRel * Math.SQRT2 * reference.uohm
  reference.u = Math.hypot(reference.u, ofSpans)
  reference.flags.push('span-mismatch')
  reference.reasons.push({ code: 'span-converted', values: { sideSpanM: spanM, conductorSpanM: convertedFromM, uRel: policy.span.uRel } })
}

function compare(
  reference: ConductorReference, conductor: Conductor, spanM: number, readings: readonly ResistanceEvidence[], live: boolean,
  context: Context,
): void {
  const temperatureC = conductorTemperatureC(readings, context.policy)
  const expected = expectedUohm(conductor, spanM, temperatureC)
  const deviation = reference.uohm / expected - 1
  const band = referenceBand(deviation, context.singleLayer && live, context.policy)
  if (band === 'ok') return
  reference.flags.push(band === 'warn' ? 'conductor-reference-warn' : 'conductor-reference-suspect')
  if (band === 'warn') reference.tableUohm = expected
  if (band === 'suspect') reference.flags.push('provisional')
  if (band === 'suspect' && expected < reference.uohm) {
    reference.lower = { uohm: expected, u: context.policy.reference.tableURel * expected, basis: 'table' }
  }
  const fitting = band === 'suspect' ? conductorsThatFit(reference.uohm, spanM, temperatureC, context.policy.reference.okRel) : []
  reference.reasons.push({
    code: `conductor-reference-${band}`,
    values: {
      conductorUohm: reference.uohm, expectedUohm: expected, deviation, size: Math.abs(deviation), conductor: conductor.code,
      spanM, temperatureC, fitting: fitting.join(', '),
    },
    readingIds: reference.readingIds,
  })
}

/** The steel core raises the conductor's live resistance and not the barrel's, so the ratio reads low by up to the core's part. */
function addDcEquivalent(
  reference: ConductorReference, spanM: number | undefined, readings: readonly ResistanceEvidence[], context: Context,
): void {
  const { conductor, policy } = context
  const trusted = conductor && spanM !== undefined && !reference.flags.includes('provisional')
  const dcUohm = trusted
    ? expectedUohm(conductor, spanM, conductorTemperatureC(readings, policy))
    : reference.uohm / policy.reference.coreFactor
  if (dcUohm >= reference.uohm) return
  const u = trusted ? policy.reference.tableURel * dcUohm : reference.u / policy.reference.coreFactor
  reference.lower = { uohm: dcUohm, u, basis: 'dc-equivalent' }
}

function fromTable(
  readings: readonly ResistanceEvidence[], spanM: number | undefined, context: Context, reasons: Reason[],
): ConductorReference | NoReference {
  const { conductor, facts, policy } = context
  const unusable = readings.find(({ conductorUnusable }) => conductorUnusable !== undefined)
  if (unusable) reasons.push({ code: 'conductor-unusable', values: { typed: unusable.conductorUnusable ?? '' }, readingIds: [unusable.readingId] })
  if (!conductor || spanM === undefined) {
    const why = conductor ? 'span' : facts.conductorCode === undefined ? 'code' : 'table'
    reasons.push({ code: 'no-conductor-reference', values: { missing: why, conductor: facts.conductorCode ?? null } })
    return { basis: 'none', flags: [], reasons }
  }
  const temperatureC = conductorTemperatureC(readings, policy)
  const uohm = expectedUohm(conductor, spanM, temperatureC)
  const uRel = policy.reference.tableURel
  const values = { conductor: conductor.code, uohm, spanM, temperatureC, uRel }
  reasons.push({ code: 'conductor-from-table', values: unusable === undefined ? values : { ...values, typed: unusable.conductorUnusable ?? '' } })
  return {
    uohm, u: uRel * uohm, basis: 'table', lower: null, tableUohm: null, flags: unusable ? ['conductor-from-table', 'provisional'] : ['conductor-from-table'], reasons, readingIds: [],
  }
}
