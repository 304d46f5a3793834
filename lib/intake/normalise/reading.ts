import type { Finding } from '@/lib/condition/types'
import type { CellReport } from '../cells/cell-report'
import { READINGS } from '../kinds/readings'
import type { NormaliseContext } from '../outcome'
import { OHM_UNITS } from '../report/ohm-units'
import { unitOfRow } from '../report/remedies'
import { positionSigmaM, type ReadingDraft, type ReadingKind, type ReadingValues } from '../reading'
import type { Assumptions } from './assumptions'
import { ContentBytes, tagOf } from './content-bytes'
import { settlePosition } from './position'

/** A side under this share of the conductor was measured with both electrodes on the barrel (common practice, no source). */
const BARREL_ONLY_RATIO = 0.15

/** Every field not known: the shape that all readings share, so that engines and garbage collectors see one. */
export const readingDraft = (rowNo: number, rawRow: string): ReadingDraft => ({
  recordType: 'reading', rowNo, rawRow, survey: null, readingKey: '', contentHash: '', kind: null, takenAt: null,
  lon: null, lat: null, sigmaM: null, conductorUnusable: null, gnssAccuracyM: null, positionOf: null, platform: null,
  circuitLabel: null, sectionLabel: null, structureBack: null, structureAhead: null, offsetFromStructureM: null, spanFraction: null,
  phase: null, position: null, circuitSide: null, subconductor: null, spliceLabel: null,
  sideAUohm: null, sideBUohm: null, conductorUohm: null, conductorBUohm: null, electrodeSpanM: null, conductorSpanM: null,
  barrelElectrodeM: null, repeatNo: null, testCurrent: null, lineCurrentA: null, current30minA: null,
  spliceTempC: null, conductorTempC: null, referenceKind: null, ambientC: null, windMS: null, sun: null, rain1h: null,
  emissivity: null, reflectedC: null, distanceM: null, viewAngleDeg: null, ifovMrad: null, band: null,
  findings: NO_FINDINGS, afterRepair: false, crew: null, instrument: null, photo: null, note: null,
})

const NO_FINDINGS: Finding[] = []

/** Rules across the fields of one row; afterwards the draft is a reading but for its key. */
export function settleReading(draft: ReadingDraft, report: CellReport, assumptions: Assumptions, context: NormaliseContext): void {
  refuseWithConductor(draft, report)
  settleKind(draft, report, assumptions)
  draft.conductorUnusable = unusableConductor(draft, report)
  settleWhere(draft, report, assumptions, context)
  settleFindings(draft, report)
  checkElectrodes(draft, report)
  noteOverRange(draft, report)
  checkCold(draft, report)
}

/** Emissivity of new bright metal, the least that a fitting has, and how much colder than the air a clear sky looks to a camera (common practice, no source). */
const LEAST_EMISSIVITY = 0.2
const CLEAR_SKY_K = 50
const ZERO_C_K = 273.15

/**
 * The coldest that a fitting at this temperature can look: bright metal reflects the clear sky. Radiation as the fourth power of the absolute
 * temperature (Stefan-Boltzmann); in the band of a long-wave camera that differs by a few kelvins.
 */
function coldestLookC(ownC: number, skyC: number): number {
  const power = LEAST_EMISSIVITY * (ownC + ZERO_C_K) ** 4 + (1 - LEAST_EMISSIVITY) * (skyC + ZERO_C_K) ** 4
  return power ** 0.25 - ZERO_C_K
}

/** A fitting is never much colder than its air and its conductor; one that looks so by more than the sky explains was not what was measured. */
function checkCold({ spliceTempC, ambientC, conductorTempC, reflectedC }: ReadingDraft, report: CellReport): void {
  const ownC = lower(ambientC, conductorTempC)
  if (spliceTempC === null || ownC === null) return
  if (spliceTempC >= coldestLookC(ownC, Math.min(ownC - CLEAR_SKY_K, reflectedC ?? Infinity))) return
  const below = `{${Math.round(ownC - spliceTempC)} K} below the ${ownC === ambientC ? 'air' : 'conductor'}`
  report.about(
    'warning', 'splice_temp_c', 'colder-than-sky', undefined, `the splice reads ${below}: colder than even bright metal that reflects a clear sky can look.`,
    'Check the unit of the column and what the camera measured (the sky beside the fitting, or a cell of another column), and correct the row; as it stands it proves nothing of the splice.',
  )
}

/** Under this many µΩ no side was ever read (limit of sense, no source): beside a conductor in another unit, it is in that unit too. */
const LEAST_SIDE_UOHM = 1

/** A side that just happens to lie within bounds where its conductor is out of them for its unit would make a failing splice read as nothing at all. */
function refuseWithConductor(draft: ReadingDraft, report: CellReport): void {
  const conductor = report.outside.get('conductor_uohm')
  if (!conductor?.likely || conductor.likely.word === 'microohm') return
  const { word } = conductor.likely
  for (const [field, key] of [['side_a_uohm', 'sideAUohm'], ['side_b_uohm', 'sideBUohm']] as const) {
    const uohm = draft[key]
    if (uohm === null || uohm >= LEAST_SIDE_UOHM) continue
    const value = Number((uohm * conductor.likely.value / conductor.value).toPrecision(6))
    draft[key] = null
    report.outside.set(field, { value: uohm, likely: { value, word } })
    report.about('error', field, `looks-like-${word}`, String(uohm), `'${uohm}' µΩ looks like ${word}, as its conductor does: it would be ${value} µΩ.`, unitOfRow(String(uohm), OHM_UNITS.find((unit) => unit.word === word)?.label ?? word))
  }
}

/** The number that stands in for it is none that was measured, so the reading itself keeps what was. */
function noteOverRange(draft: ReadingDraft, { issues }: CellReport): void {
  const over = issues.filter(({ code, severity, field }) => code === 'over-range' && severity === 'warning' && (field === 'side_a_uohm' || field === 'side_b_uohm'))
  if (over.length === 0) return
  const words = over.map(({ field, value }) => `${field === 'side_a_uohm' ? 'Side A' : 'Side B'} was over range ('${value}')`).join(', ')
  draft.note = draft.note === null ? `${words}.` : `${words}. ${draft.note}`
}

function settleKind(draft: ReadingDraft, report: CellReport, assumptions: Assumptions): void {
  if (draft.kind === null) {
    draft.kind = measuredKind(draft)
    if (draft.kind !== null && !report.speaksOf('kind')) assumptions.add(`kind-${draft.kind}`, draft.rowNo)
  }
  if (report.rejected) return
  if (draft.kind === null) {
    report.about(
      'error', 'kind', 'nothing-measured', undefined, 'the row gives no kind, no resistance, no splice temperature and no finding.',
      'Fill kind and what was measured, or map the columns that hold it.',
    )
  } else if (draft.kind === 'resistance' && draft.sideAUohm === null && draft.sideBUohm === null) {
    report.about(
      'warning', 'side_a_uohm', 'nothing-measured', undefined, 'the row is a resistance reading without a side, so it proves nothing.',
      'Give side_a_uohm or side_b_uohm.',
    )
  } else if (draft.kind === 'infrared' && draft.spliceTempC === null) {
    report.about(
      'warning', 'splice_temp_c', 'nothing-measured', undefined, 'the row is an infrared reading without a splice temperature.',
      'Give splice_temp_c.',
    )
  } else if (draft.kind === 'visual' && draft.findings.length === 0) {
    report.about(
      'warning', 'findings', 'nothing-measured', undefined, 'the row is a visual reading without findings.',
      'Write none where nothing was found.',
    )
  }
}

/** A column for the conductor with nothing in it leaves the sides to another reference, as a number that cannot be does. */
export function warnOfNoConductor(draft: ReadingDraft, report: CellReport, mapped: readonly ContentKey[]): void {
  if (draft.kind !== 'resistance' || draft.conductorUohm !== null || draft.conductorBUohm !== null || (draft.sideAUohm === null && draft.sideBUohm === null)) return
  if (report.speaksOf('conductor_uohm') || report.speaksOf('conductor_b_uohm') || !mapped.some(({ key }) => key === 'conductorUohm')) return
  report.about(
    'warning', 'conductor_uohm', 'no-conductor', '',
    '\'\' is empty: the sides are judged by another conductor reading of the visit, else by the conductor on record, and not at all where none is on record.',
    'Fill conductor_uohm where the conductor was measured; otherwise measure it over the same electrode span at the next visit.',
  )
}

/** What was written for the conductor and was left out, where nothing else was read of it. */
function unusableConductor(draft: ReadingDraft, report: CellReport): string | null {
  if (report.issues.length === 0 || draft.conductorUohm !== null || draft.conductorBUohm !== null) return null
  return report.issues.find(({ field, value }) => (field === 'conductor_uohm' || field === 'conductor_b_uohm') && value !== undefined && value !== '')?.value ?? null
}

function measuredKind(draft: ReadingDraft): ReadingKind | null {
  if (draft.sideAUohm !== null || draft.sideBUohm !== null || draft.conductorUohm !== null) return 'resistance'
  if (draft.spliceTempC !== null) return 'infrared'
  return draft.findings.length > 0 ? 'visual' : null
}

function settleWhere(draft: ReadingDraft, report: CellReport, assumptions: Assumptions, context: NormaliseContext): void {
  if (draft.lon === null && draft.lat === null) assumptions.add('no-position', draft.rowNo)
  settlePosition(draft, report, context.networkBbox)
  if (draft.positionOf === null) {
    const aircraft = draft.platform === 'helicopter' || draft.platform === 'uncrewed'
    draft.positionOf = aircraft ? 'platform' : 'target'
    if (aircraft) assumptions.add('platform-position', draft.rowNo)
  }
  if (draft.gnssAccuracyM === 0) {
    assumptions.add('accuracy-zero', draft.rowNo)
    draft.gnssAccuracyM = null
  }
  if (draft.lon === null) return
  draft.sigmaM = positionSigmaM(draft.gnssAccuracyM, draft.platform)
  if (draft.gnssAccuracyM === null) assumptions.add('accuracy-by-platform', draft.rowNo)
}

function settleFindings(draft: ReadingDraft, report: CellReport): void {
  if (draft.findings.length < 2 || !draft.findings.includes('none')) return
  const others = draft.findings.filter((finding) => finding !== 'none')
  report.about(
    'warning', 'findings', 'none-and-others', draft.findings.join(';'),
    `'${draft.findings.join(';')}' says none beside others; the others count.`, 'Leave none out where something was found.'
  )
  draft.findings = others
}

function checkElectrodes(draft: ReadingDraft, report: CellReport): void {
  const conductorUohm = lower(draft.conductorUohm, draft.conductorBUohm)
  if (conductorUohm === null) return
  for (const [field, sideUohm] of [['side_a_uohm', draft.sideAUohm], ['side_b_uohm', draft.sideBUohm]] as const) {
    if (sideUohm === null || sideUohm >= BARREL_ONLY_RATIO * conductorUohm) continue
    report.about(
      'warning', field, 'electrodes-on-barrel', String(sideUohm),
      `'${sideUohm}' µΩ is under ${BARREL_ONLY_RATIO} of the conductor's ${conductorUohm} µΩ, so both electrodes were on the barrel, or the conductor reading is wrong.`,
      'Measure again with one electrode on the conductor, outboard of the mouth.',
    )
  }
}

const lower = (a: number | null, b: number | null): number | null => (a === null ? b : b === null ? a : Math.min(a, b))

type ValueKey = keyof ReadingValues

const VALUE_KEYS = READINGS.fields.map((field) => field.key)
  .filter((key): key is ValueKey => key !== 'readingKey' && key !== 'survey').sort()

/** Known in every reading, whatever columns the file has. */
const ALWAYS = new Set<string>(['kind', 'positionOf', 'lon', 'lat'])

/** A field and the number that stands for its name. */
export interface ContentKey { key: ValueKey; tag: number }

const TAGS = VALUE_KEYS.map((key): ContentKey => ({ key, tag: tagOf(key) }))

/** Fields that can be known in a file that maps these; in an order that no change of the template moves. */
export const contentKeys = (mapped: ReadonlySet<string>): ContentKey[] => TAGS.filter(({ key }) => mapped.has(key) || ALWAYS.has(key))

const content = new ContentBytes()

/** What the fields say as bytes, whatever columns it came from; what is not known leaves no trace. They stand until the next call. */
export function contentBytes(draft: ReadingDraft, keys: readonly ContentKey[]): Uint8Array {
  content.clear()
  for (const { key, tag } of keys) {
    const value = draft[key]
    if (value === null || value === false) continue
    if (typeof value === 'number') content.number(tag, value)
    else if (typeof value === 'string') content.text(tag, value)
    else if (value === true) content.text(tag, '')
    else if (value instanceof Date) content.number(tag, value.getTime())
    else if (value.length > 0) content.text(tag, value.join(';'))
  }
  return content.bytes()
}

/** A reading's name within its file, as bytes that stand until the next call. */
export function nameBytes(survey: string | null, readingKey: string): Uint8Array {
  content.clear()
  content.text(0, survey ?? '')
  content.text(0, readingKey)
  return content.bytes()
}

/** What the nth row of a file says that is like the ones before it, as bytes that stand until the next call. */
export function nthBytes(contentHash: string, nth: number): Uint8Array {
  content.clear()
  content.text(0, contentHash)
  content.number(1, nth)
  return content.bytes()
}
