import type { BuiltSection, BuiltStructure } from './network'
import { moveTowards, type Place } from './ground'
import { Random } from './random'

/** What is true of a fitting in the invented world; readings are made from it with noise. */
export interface TrueSplice {
  label: string
  section: BuiltSection
  back: BuiltStructure
  ahead: BuiltStructure
  offsetM: number
  stationM: number
  place: Place
  phase: 'A' | 'B' | 'C'
  position: string
  circuitSide: string
  subconductor: string
  kind: string
  fittingType: string
  barrelOdMm: number
  barrelLengthMm: number
  installedYear: number
  batch: string
  /** Ratio of each side when new and its growth a year (of ln k). */
  newRatio: readonly [a: number, b: number]
  growth: readonly [a: number, b: number]
  /** Not in the utility's list: only a survey finds it. */
  unlisted: boolean
}

/** Barrel outside diameter and length, mm: typical sizes from memory, ± 15 %. */
const BARRELS: Record<string, readonly [odMm: number, lengthMm: number]> = {
  Raven: [18, 300], Penguin: [25, 400], Linnet: [32, 500], Hawk: [37, 550], Drake: [47.6, 680], Cardinal: [51, 720], Bobolink: [60, 820],
}

/** The batch whose filler compound was left out. */
const BAD_BATCH = 'KF-87-22'
const BAD_BATCH_CIRCUIT = '1420'

const POSITIONS: Record<'vertical' | 'flat', readonly [string, string, string]> = {
  vertical: ['top', 'middle', 'bottom'], flat: ['left', 'centre', 'right'],
}

export const configuration = (s: BuiltSection): 'vertical' | 'flat' =>
  s.plan.lateralOffsetM !== undefined || s.plan.voltageKv < 100 ? 'vertical' : 'flat'

/** Circuit 2340 rolls its phases once, two fifths of the way along. */
export const TRANSPOSITION = { circuit: '2340', atShare: 0.4 }

export function phaseOf(section: BuiltSection, stationM: number, positionIndex: number): 'A' | 'B' | 'C' {
  const lengthM = section.structures[section.structures.length - 1]?.stationM ?? 1
  const rolled = section.plan.circuit === TRANSPOSITION.circuit && stationM / lengthM > TRANSPOSITION.atShare ? 1 : 0
  return (['A', 'B', 'C'] as const)[(positionIndex + rolled) % 3] as 'A' | 'B' | 'C'
}

function kindOf(random: Random): [kind: string, fittingType: string] {
  const roll = random.next()
  if (roll < 0.86) return ['full-tension splice', 'two-stage compression']
  if (roll < 0.92) return ['jumper splice', 'one-stage compression']
  if (roll < 0.96) return ['repair sleeve', 'one-stage compression']
  return ['dead-end', 'two-stage compression']
}

function makeSplice(section: BuiltSection, random: Random): TrueSplice {
  const { plan, structures } = section
  const at = random.whole(0, structures.length - 2)
  const back = structures[at] as BuiltStructure
  const ahead = structures[at + 1] as BuiltStructure
  const spanM = ahead.stationM - back.stationM
  const [kind, fittingType] = kindOf(random)
  const offsetM = kind === 'dead-end' || kind === 'jumper splice' ? random.between(0.8, 2.5) : random.between(0.12, 0.88) * spanM
  const stationM = back.stationM + offsetM
  const positionIndex = random.whole(0, 2)
  const [odMm, lengthMm] = BARRELS[section.conductor] as readonly [number, number]
  const inBadBatch = plan.circuit === BAD_BATCH_CIRCUIT && stationM > 12_000 && stationM < 34_000
  const ageing = inBadBatch ? random.between(0.008, 0.042) : Math.abs(random.normal(0.004, 0.0055)) + (random.chance(0.035) ? random.between(0.008, 0.03) : 0)
  const uneven = random.between(0.35, 1)
  const first = random.chance(0.5)
  const phase = phaseOf(section, stationM, positionIndex)
  const subconductor = plan.subconductors > 1 ? String(random.whole(1, plan.subconductors)) : ''
  const barrelLengthMm = Math.round(lengthMm * random.between(0.95, 1.05))
  const installedYear = plan.builtIn + (random.chance(0.12) ? random.whole(3, 24) : 0)
  return {
    label: '', section, back, ahead, offsetM, stationM,
    place: moveTowards([back.lon, back.lat], [ahead.lon, ahead.lat], offsetM, plan.lateralOffsetM ?? 0),
    phase, position: POSITIONS[configuration(section)][positionIndex] as string,
    circuitSide: plan.lateralOffsetM === undefined ? '' : plan.lateralOffsetM < 0 ? 'left' : 'right',
    subconductor, kind, fittingType,
    barrelOdMm: kind === 'repair sleeve' ? odMm * 1.1 : odMm, barrelLengthMm,
    installedYear,
    batch: inBadBatch ? BAD_BATCH : `KF-${String(installedYear % 100).padStart(2, '0')}-${String(random.whole(1, 19)).padStart(2, '0')}`,
    newRatio: [random.between(0.46, 0.56), random.between(0.46, 0.56)],
    growth: first ? [ageing, ageing * uneven] : [ageing * uneven, ageing],
    unlisted: random.chance(0.02),
  }
}

/** Fittings of one conductor stand at least 60 m apart here, so that a reading belongs to one of them. */
function tooClose(a: TrueSplice, b: TrueSplice): boolean {
  return a.section === b.section && a.phase === b.phase && a.subconductor === b.subconductor && Math.abs(a.stationM - b.stationM) < 60
}

export function buildSplices(sections: BuiltSection[]): TrueSplice[] {
  const random = new Random(4200)
  const out: TrueSplice[] = []
  for (const section of sections) {
    const wanted = section.section === 'main' ? Math.round(section.plan.splices * 0.98) : 28
    const here: TrueSplice[] = []
    while (here.length < wanted) {
      const next = makeSplice(section, random)
      if (!here.some((s) => tooClose(s, next))) here.push(next)
    }
    here.sort((a, b) => a.stationM - b.stationM)
    for (const [i, splice] of here.entries()) splice.label = `${section.plan.circuit}-${String(i + 1).padStart(3, '0')}${section.section === 'main' ? '' : 'T'}`
    out.push(...here)
  }
  return out
}

/** Ratio of each side in a year, by constant relative growth. */
export function ratiosIn(splice: TrueSplice, year: number): readonly [a: number, b: number] {
  const age = Math.max(0, year - splice.installedYear)
  return [splice.newRatio[0] * Math.exp(splice.growth[0] * age), splice.newRatio[1] * Math.exp(splice.growth[1] * age)]
}
