import { conductorByCode, type Evidence, type InfraredEvidence, type Policy, type SpliceFacts } from '@/lib/condition'
import { truePicture } from '@/lib/condition/camera'
import { DAY_MS } from '@/lib/condition/limits'
import type { UnitSystem } from '@/lib/units/format'
import type { Inputs } from './address'
import { NUMBER_KEYS, NUMBERS, rangeFault, type NumberKey } from './numbers'
import type { FieldKey } from './spoil'

/** What was put in as the engine takes it. What is at fault is left out and named. */
export interface Case {
  facts: SpliceFacts
  /** One reading; none where nothing can be reckoned from yet. */
  evidence: Evidence[]
  faults: Map<FieldKey, string>
  /** The inputs without those at fault. */
  usable: Inputs
}

export const READING_ID = 'calculator'

const NO_SETTING = 'With these settings the camera would see less than what is reflected. Look at emissivity and reflected temperature.'

const NO_DAY = 'No day that has been. Write the day it was read, or leave it empty.'

/** When it was read, ms since 1970 UTC: the day that was put in, else the moment asked for. Undefined where the day cannot be right. */
function readAtMs(on: string | null, atMs: number): number | undefined {
  if (on === null) return atMs
  const dayMs = /^\d{4}-\d{2}-\d{2}$/.test(on) ? Date.parse(`${on}T12:00:00Z`) : NaN
  return Number.isNaN(dayMs) || dayMs > atMs + DAY_MS || dayMs < EARLIEST_MS ? undefined : Math.min(dayMs, atMs)
}

const EARLIEST_MS = Date.UTC(1900, 0, 1)

/** @param atMs the moment for which it is judged, and at which it counts as read where no day is given, ms since 1970 UTC */
export function caseOf(inputs: Inputs, policy: Policy, system: UnitSystem, atMs: number): Case {
  const faults = new Map<FieldKey, string>()
  const usable = { ...inputs }
  const refuse = (key: NumberKey, fault: string): void => {
    faults.set(key, fault)
    usable[key] = null
  }
  for (const key of NUMBER_KEYS) {
    const value = inputs[key]
    const fault = value === null ? undefined : rangeFault(value, NUMBERS[key], system)
    if (fault) refuse(key, fault)
  }
  if (usable.inboard !== null && usable.span !== null && usable.inboard > usable.span) {
    refuse('inboard', 'Further in than the whole span reaches: both electrodes would sit on the barrel. Look at both figures.')
  }
  if (inputs.conductor !== null && conductorByCode(inputs.conductor) === null) {
    faults.set('conductor', 'Not one conductor of the table. Choose one from the list; without it there is no check of the conductor reading and no current.')
  }
  const takenAtMs = readAtMs(inputs.on, atMs)
  if (takenAtMs === undefined) {
    faults.set('on', NO_DAY)
    usable.on = null
  }
  if (usable.by === 'infrared' && usable.cemis !== null && usable.crefl === null && usable.air === null) {
    faults.set('crefl', 'Note what the camera had set, or the air: without it the emissivity cannot be put right, and the temperatures count as they are.')
  }
  const facts = factsOf(usable)
  const one = usable.by === 'resistance' ? resistanceOf(usable, takenAtMs ?? atMs) : infraredOf(usable, takenAtMs ?? atMs)
  const cannotBe = one?.source === 'infrared' && truePicture(one, facts, policy).cause !== undefined
  if (cannotBe) faults.set('cemis', NO_SETTING)
  return { facts, evidence: one && !cannotBe ? [one] : [], faults, usable }
}

const known = <T>(value: T | null): T | undefined => value ?? undefined

const factsOf = (of: Inputs): SpliceFacts => ({
  ...of.kind === 'automatic' ? { kind: 'full-tension splice', fittingType: 'automatic' } : { kind: of.kind }, subconductors: of.n ?? 1, conductorCode: known(of.conductor), barrelOdMm: known(of.od),
  barrelLengthMm: of.length === null ? undefined : of.length * 1000, maxOperatingC: known(of.max), ratingA: known(of.rating), voltageKv: known(of.kv),
  surfaceEmissivity: of.by === 'infrared' ? known(of.emis) : undefined,
})

function resistanceOf(of: Inputs, atMs: number): Evidence | null {
  if (of.a === null && of.b === null) return null
  return {
    source: 'resistance', readingId: READING_ID, takenAtMs: atMs, afterRepair: false, sideAUohm: known(of.a), sideBUohm: known(of.b),
    conductorUohm: known(of.c), conductorBUohm: known(of.c2), electrodeSpanM: known(of.span), conductorSpanM: known(of.cspan),
    barrelElectrodeM: known(of.inboard), testCurrent: known(of.test), lineCurrentA: known(of.i), conductorTempC: known(of.ct), ambientC: known(of.air),
    sidesDeclared: true,
  }
}

function infraredOf(of: Inputs, atMs: number): InfraredEvidence | null {
  if (of.ts === null) return null
  return {
    source: 'infrared', readingId: READING_ID, takenAtMs: atMs, afterRepair: false, spliceTempC: of.ts, conductorTempC: known(of.tc),
    referenceKind: of.tc === null ? undefined : 'own-conductor', ambientC: known(of.air), windMS: known(of.wind), sun: known(of.sun),
    lineCurrentA: known(of.i), distanceM: known(of.dist), ifovMrad: known(of.ifov), band: of.band,
    emissivity: known(of.cemis), reflectedC: known(of.crefl), trueReflectedC: known(of.refl),
  }
}
