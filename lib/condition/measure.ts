import { conductorReference, outOfRange, usableSpan, type ConductorReference } from './conductor-reference'
import type { Context } from './context'
import type { Side } from './interfaces'
import { ELECTRODE_SPAN_M, isResistance } from './limits'
import { ratioOf, relativeUncertainty, type RatioReading } from './ratio'
import { settleRepeats } from './repeats'
import type { AssessmentFlag, Reason, ReferenceBasis, ResistanceEvidence } from './types'
import { instrumentOf, instrumentUncertainty, meanOf, uncertaintyOfMean } from './uncertainty'
import { crimpOf } from './within-crimp'

/** One side as one visit measured it. */
export interface SideMeasurement extends RatioReading {
  side: Side
  ratio: number
  uLnK: number
  repeats: number
  reference: ReferenceBasis
  electrodeSpanM?: number
  barrelElectrodeM?: number
  sidesDeclared: boolean
  flags: AssessmentFlag[]
  reasons: Reason[]
  readingIds: (number | string)[]
  takenAtMs?: number
}

/** What one visit with one instrument gave. */
export interface Measured {
  /** Sides with a usable ratio. */
  sides: SideMeasurement[]
  /** Sides whose interface did not lie between the electrodes, or not all of it. */
  unproved: Side[]
  /** Sides that were read and are not used, for whatever reason. */
  refused: Side[]
  flags: AssessmentFlag[]
  reasons: Reason[]
}

/**
 * The ratios that the readings of one visit give; all of one instrument and one kind of test current, newest last.
 * What cannot be used is named in the reasons and never dropped without a word.
 */
export function measure(readings: readonly ResistanceEvidence[], context: Context): Measured {
  const result: Measured = { sides: [], unproved: [], refused: [], flags: [], reasons: [] }
  const usable = withEnoughCurrent(readings, context, result)
  if (usable.length === 0) return result
  const live = !usable.every((reading) => reading.testCurrent === 'dead-dc')
  let reference: ReturnType<typeof conductorReference> | null = null
  let referenceSpanM: number | undefined
  for (const side of SIDES) {
    const found = collectSide(usable, side, context, result)
    if (found === null) continue
    if (found.values.length > 1) keepWorstOf(found, side, context, result)
    if (reference === null || found.spanM !== referenceSpanM) {
      reference = conductorReference(usable, found.spanM, live, context)
      referenceSpanM = found.spanM
      result.reasons.push(...reference.reasons)
      addFlags(result.flags, reference.flags)
    }
    if (reference.basis !== 'none') keepSide(found, side, reference, context, result)
  }
  return result
}

const SIDES = ['A', 'B'] as const

const addFlags = (flags: AssessmentFlag[], more: readonly AssessmentFlag[]): void => {
  for (const flag of more) if (!flags.includes(flag)) flags.push(flag)
}

function withEnoughCurrent(readings: readonly ResistanceEvidence[], context: Context, result: Measured): readonly ResistanceEvidence[] {
  if (!context.refuseLowCurrent || !readings.some((reading) => hasLowCurrent(reading, context))) return readings
  const low = readings.filter((reading) => hasLowCurrent(reading, context))
  addFlags(result.flags, ['low-test-current'])
  for (const reading of low) {
    const { minimumCurrentA } = instrumentOf(reading.instrument, context.policy)
    result.reasons.push({
      code: 'low-test-current',
      values: {
        currentA: (reading.lineCurrentA ?? 0) / context.facts.subconductors, minimumA: minimumCurrentA,
        instrument: reading.instrument ?? null,
      },
      readingIds: [reading.readingId],
    })
  }
  return readings.filter((reading) => !low.includes(reading))
}

/** A dead reading brings its own current; a live one rests on the line's. */
export function hasLowCurrent(reading: ResistanceEvidence, context: Context): boolean {
  if (reading.testCurrent === 'dead-dc' || reading.lineCurrentA === undefined) return false
  return reading.lineCurrentA / context.facts.subconductors < instrumentOf(reading.instrument, context.policy).minimumCurrentA
}

interface Collected {
  values: number[]
  spanM: number | undefined
  barrelElectrodeM: number | undefined
  /** Of the repeats, the one nearest to the mouth. */
  nearestElectrodeM: number | undefined
  sidesDeclared: boolean
  instrument: string | undefined
  takenAtMs: number | undefined
  readingIds: (number | string)[]
}

/** The repeats of a side over the electrode span of its newest reading; a side is never converted from another span. */
function collectSide(readings: readonly ResistanceEvidence[], side: Side, context: Context, result: Measured): Collected | null {
  let found: Collected | null = null
  for (let i = readings.length - 1; i >= 0; i--) {
    const reading = readings[i]
    const uohm = side === 'A' ? reading?.sideAUohm : reading?.sideBUohm
    if (!reading || uohm === undefined) continue
    if (!isResistance(uohm)) {
      result.refused.push(side)
      result.reasons.push(outOfRange(reading, side === 'A' ? 'sideAUohm' : 'sideBUohm', uohm))
      continue
    }
    const spanM = usableSpan(reading.electrodeSpanM)
    if (spanM === undefined) noteSpan(reading, result)
    if (found === null) {
      found = {
        values: [uohm], spanM, barrelElectrodeM: reading.barrelElectrodeM, nearestElectrodeM: reading.barrelElectrodeM, sidesDeclared: reading.sidesDeclared,
        instrument: reading.instrument, takenAtMs: reading.takenAtMs, readingIds: [reading.readingId],
      }
      continue
    }
    if (!spansAgree(found.spanM, spanM, context)) {
      result.reasons.push({
        code: 'side-span-differs', values: { side, spanM: spanM ?? null, usedSpanM: found.spanM ?? null }, readingIds: [reading.readingId],
      })
      continue
    }
    found.values.push(uohm)
    found.readingIds.push(reading.readingId)
    found.sidesDeclared = found.sidesDeclared && reading.sidesDeclared
    if (found.barrelElectrodeM !== reading.barrelElectrodeM) found.barrelElectrodeM = undefined
    if (reading.barrelElectrodeM !== undefined) found.nearestElectrodeM = Math.min(found.nearestElectrodeM ?? Infinity, reading.barrelElectrodeM)
  }
  return found
}

function keepWorstOf(found: Collected, side: Side, { policy }: Context, result: Measured): void {
  const { values, readingIds, againstUohm } = settleRepeats(found.values, found.readingIds, found.instrument, policy)
  if (againstUohm === null) return
  addFlags(result.flags, ['conflict'])
  result.reasons.push({
    code: 'repeats-disagree', values: { side, declared: found.sidesDeclared, sideUohm: meanOf(values), againstUohm }, readingIds: found.readingIds,
  })
  found.values = values
  found.readingIds = readingIds
}

function noteSpan(reading: ResistanceEvidence, result: Measured): void {
  if (!result.flags.includes('span-unknown')) {
    result.flags.push('span-unknown')
    const { electrodeSpanM = null } = reading
    result.reasons.push({
      code: 'span-unknown', values: { spanM: electrodeSpanM, leastM: ELECTRODE_SPAN_M.least, greatestM: ELECTRODE_SPAN_M.greatest },
      readingIds: [reading.readingId],
    })
  }
}

function spansAgree(a: number | undefined, b: number | undefined, context: Context): boolean {
  if (a === undefined || b === undefined) return a === b
  return Math.abs(a / b - 1) <= context.policy.span.equalRel
}

function keepSide(found: Collected, side: Side, reference: ConductorReference, context: Context, result: Measured): void {
  const { policy } = context
  const sideUohm = meanOf(found.values)
  const instrumentU = instrumentUncertainty(sideUohm, instrumentOf(found.instrument, policy))
  const reading: RatioReading = {
    sideUohm, uSideUohm: uncertaintyOfMean(found.values, instrumentU, policy), conductorUohm: reference.uohm, uConductorUohm: reference.u,
  }
  // A reading that cannot be right proves nothing of where the electrodes sat either.
  const placed = reference.lower?.basis === 'table' ? reference.lower.uohm : reference.uohm
  const refusal = whyRefused(side, sideUohm / placed, found, context)
  if (refusal) {
    addFlags(result.flags, [refusal.flag])
    result.refused.push(side)
    if (refusal.flag === 'interface-not-proved') result.unproved.push(side)
    result.reasons.push(refusal.reason)
    return
  }
  const flags: AssessmentFlag[] = []
  const reasons: Reason[] = []
  let basis: ReferenceBasis = reference.basis
  if (reference.lower) {
    if (reference.lower.basis === 'dc-equivalent') flags.push('single-layer-core')
    reasons.push(lowerReason(side, found.sidesDeclared, sideUohm, reference.uohm, reference.lower))
    reading.conductorUohm = reference.lower.uohm
    reading.uConductorUohm = reference.lower.u
    basis = reference.lower.basis
  } else if (reference.tableUohm !== null) {
    reasons.push(besideTable(side, found.sidesDeclared, sideUohm, reference.uohm, reference.tableUohm))
  }
  if (!found.sidesDeclared) flags.push('sides-undeclared')
  const within = withinCrimp(side, found, context)
  if (within) {
    flags.push('interface-not-proved')
    reasons.push(within)
    result.unproved.push(side)
  }
  const ratio = ratioOf(reading)
  if (ratio > policy.side.greatestRatio) {
    flags.push('implausible', 'provisional')
    reasons.push({
      code: 'ratio-beyond', values: { side, declared: found.sidesDeclared, ratio, greatest: policy.side.greatestRatio }, readingIds: found.readingIds,
    })
  }
  // Spelled out: a spread here cost four fifths of the time of a whole assessment.
  result.sides.push({
    sideUohm: reading.sideUohm, uSideUohm: reading.uSideUohm, conductorUohm: reading.conductorUohm, uConductorUohm: reading.uConductorUohm,
    side, ratio, uLnK: relativeUncertainty(reading, policy.instrument.correlation), repeats: found.values.length,
    reference: basis, electrodeSpanM: found.spanM, barrelElectrodeM: found.barrelElectrodeM, sidesDeclared: found.sidesDeclared,
    flags, reasons, readingIds: union(found.readingIds, reference.readingIds), takenAtMs: found.takenAtMs,
  })
}

function lowerReason(
  side: Side, declared: boolean, sideUohm: number, conductorUohm: number, { uohm, basis }: NonNullable<ConductorReference['lower']>,
): Reason {
  const values = { side, declared, conductorUohm, ratio: sideUohm / conductorUohm }
  return basis === 'table'
    ? { code: 'table-governs', values: { ...values, tableUohm: uohm, tableRatio: sideUohm / uohm } }
    : { code: 'single-layer-core', values: { ...values, dcConductorUohm: uohm, dcRatio: sideUohm / uohm } }
}

/** A conductor reading somewhat off the table still governs; the other ratio shows what rests on it. */
const besideTable = (side: Side, declared: boolean, sideUohm: number, conductorUohm: number, tableUohm: number): Reason => ({
  code: 'measured-governs', values: { side, declared, conductorUohm, ratio: sideUohm / conductorUohm, tableUohm, tableRatio: sideUohm / tableUohm },
})

const union = <T>(a: readonly T[], b: readonly T[]): T[] => {
  const all = [...a]
  for (const item of b) if (!all.includes(item)) all.push(item)
  return all
}

/**
 * Why a ratio says nothing of the interface; null where it does. One far too high is not among these: an open interface reads so too, and
 * must not count for less than one half as bad.
 */
function whyRefused(name: Side, ratio: number, found: Collected, context: Context): { flag: AssessmentFlag; reason: Reason } | null {
  const { side: rule } = context.policy
  const { readingIds } = found
  const side = { side: name, declared: found.sidesDeclared }
  if (ratio < rule.implausibleRatio) {
    return { flag: 'implausible', reason: { code: 'implausible-side', values: { ...side, ratio, limit: rule.implausibleRatio }, readingIds } }
  }
  if (!context.interfaces.barrelSides.includes(name)) return null
  if (found.barrelElectrodeM !== undefined && found.barrelElectrodeM <= 0) {
    const values = { ...side, barrelElectrodeM: found.barrelElectrodeM }
    return { flag: 'interface-not-proved', reason: { code: 'electrode-off-barrel', values, readingIds } }
  }
  if (context.barrelRatio === null || ratio > rule.barrelOnlyFactor * context.barrelRatio) return null
  const values = { ...side, ratio, barrelRatio: context.barrelRatio, factor: rule.barrelOnlyFactor, barrelAssumed: context.barrelAssumed }
  return { flag: 'interface-not-proved', reason: { code: 'interface-not-proved', values, readingIds } }
}

/** An electrode within the crimp leaves part of the interface out: the side reads too good, by how much nobody knows. */
function withinCrimp(name: Side, found: Collected, context: Context): Reason | null {
  const { nearestElectrodeM: barrelElectrodeM } = found
  if (barrelElectrodeM === undefined || !context.interfaces.barrelSides.includes(name)) return null
  const crimp = crimpOf(context)
  if (crimp === null || barrelElectrodeM >= crimp.crimpedM) return null
  return {
    code: 'electrode-within-crimp', values: {
      side: name, declared: found.sidesDeclared, barrelElectrodeM, barrelLengthM: crimp.barrelLengthM, crimpedM: crimp.crimpedM, lengthAssumed: crimp.lengthAssumed,
    },
    readingIds: found.readingIds,
  }
}
