import { clockMs, workdayMs } from '../calendar'
import { moveTowards, shift } from '../ground'
import { Random } from '../random'
import { ratiosIn, type TrueSplice } from '../splices'
import { campaignRow, type ReadingRow } from './resistance-campaign'

const at = (local: string) => Date.parse(`${local}-06:00`)

function near(splices: TrueSplice[], circuit: string, phase: string, kind: string, share: number): TrueSplice {
  const here = splices.filter((s) => s.section.plan.circuit === circuit && s.phase === phase && s.kind === kind && !s.unlisted && s.section.section === 'main')
  return here[Math.floor(here.length * share)] as TrueSplice
}

/**
 * From finding to proof: sides 10 and 53 µΩ against conductor 12 µΩ over 0.3048 m of Bobolink, then 8 and 7 after the repair
 * (figures of the trade, common practice with no published source).
 */
export function findingToProof(splices: TrueSplice[]): { splice: TrueSplice; finding: ReadingRow[]; proof: ReadingRow[] } {
  const splice = near(splices, '3420', 'B', 'full-tension splice', 0.45)
  const random = new Random(4600)
  const read = (id: string, local: string, crew: string, sides: [number, number, number], more: ReadingRow): ReadingRow => ({
    ...campaignRow(splice, random, { takenMs: at(local), crew, id }), splice_id: splice.label,
    side_a_uohm: sides[0].toFixed(1), side_b_uohm: sides[1].toFixed(1), conductor_uohm: sides[2].toFixed(1), ...more,
  })
  const dead = { platform: 'bucket', test_current: 'dead-dc', line_current_a: '', after_repair: 'yes' }
  return {
    splice,
    finding: [
      read('R26-9-0001', '2026-09-16T12:52:00', 'Crew 2', [10, 53, 12], { note: 'Control room called 12:58' }),
      read('R26-9-0002', '2026-09-17T08:10:00', 'Crew 5', [10.2, 52.4, 12.1], { platform: 'bucket', note: 'Confirming reading, second instrument' }),
    ],
    proof: [
      read('P26-0001', '2026-10-06T14:40:00', 'Crew 5', [8, 7, 12], { ...dead, note: 'Cut out and spliced anew; line dead and grounded' }),
      read('P26-0002', '2026-10-07T09:05:00', 'Crew 6', [8.1, 7, 12], { ...dead, note: 'Read again by another crew before the line went back' }),
    ],
  }
}

/** Two crews, a week apart, do not agree: the second, good reading does not clear the first. */
export function conflict(splices: TrueSplice[]): { splice: TrueSplice; rows: ReadingRow[] } {
  const splice = near(splices, '2330', 'A', 'full-tension splice', 0.3)
  const random = new Random(4610)
  const row = (id: string, local: string, crew: string, a: string, b: string): ReadingRow => ({
    ...campaignRow(splice, random, { takenMs: at(local), crew, id }), splice_id: splice.label, side_a_uohm: a, side_b_uohm: b,
    conductor_uohm: '22.1',
  })
  return { splice, rows: [
    row('R26-9-0003', '2026-09-23T14:31:00', 'Crew 2', '13.4', '47.9'), row('R26-9-0004', '2026-09-30T13:30:00', 'Crew 6', '12.9', '15.6'),
  ] }
}

/** A repair sleeve seven metres ahead of a splice on the same conductor: position alone cannot tell the two apart. */
export function besideSplice(splices: TrueSplice[]): { splice: TrueSplice; sleeve: TrueSplice } {
  const splice = near(splices, '1430', 'B', 'full-tension splice', 0.4)
  const { back, ahead } = splice
  const offsetM = splice.offsetM + 7
  return { splice, sleeve: {
    ...splice, label: `${splice.label}A`, kind: 'repair sleeve', fittingType: 'one-stage compression', offsetM, stationM: back.stationM + offsetM,
    place: moveTowards([back.lon, back.lat], [ahead.lon, ahead.lat], offsetM, 0), barrelOdMm: splice.barrelOdMm * 1.1, installedYear: 1998,
    growth: [0.003, 0.003],
  } }
}

const WATCHED_YEARS = [2021, 2022, 2023, 2024]

/** A few splices that age faster than their neighbours, read again each autumn: what a trend is drawn through. */
export function watchedYears(splices: TrueSplice[]): ReadingRow[] {
  const random = new Random(4640)
  const worse = (s: TrueSplice) => Math.max(...ratiosIn(s, 2026.8))
  const watched = ['1410', '2310'].flatMap((circuit) => splices
    .filter((s) => s.section.plan.circuit === circuit && s.kind === 'full-tension splice' && !s.unlisted && worse(s) > 0.85 && worse(s) < 1.6 && s.installedYear < 2015)
    .sort((a, b) => Math.max(...b.growth) - Math.max(...a.growth)).slice(0, 4))
  return WATCHED_YEARS.flatMap((year) => watched.map((splice, n) => ({
    ...campaignRow(splice, random, {
      takenMs: workdayMs(`${year}-09-06`, Math.floor(n / 4)) + clockMs(8, 30 + (n % 4) * 110), crew: 'Crew 5', id: `W${year % 100}-${String(n + 1).padStart(3, '0')}`, year: year + 0.7,
    }),
    survey: `Watched splices ${year}`, splice_id: splice.label, instrument: 'Micro-ohmmeter 5',
  })))
}

const NOT_WRITTEN_DOWN = { circuit: '', section: '', structure_back: '', structure_ahead: '', circuit_side: '' }

/** Readings that nobody can place without a person, each day's for another reason: a crew that fills gaps in November. */
export function doubtful(splices: TrueSplice[]): ReadingRow[] {
  const random = new Random(4620)
  const rows: ReadingRow[] = []
  const on = (circuit: string, share: number) => {
    const here = splices.filter((s) => s.section.plan.circuit === circuit && s.section.section === 'main' && !s.unlisted)
    return here[Math.floor(here.length * share)] as TrueSplice
  }
  const day = (n: number, visits: (readonly [splice: TrueSplice, change: ReadingRow])[]) => visits.forEach(([splice, change], i) => {
    const takenMs = workdayMs('2026-11-02', n) + clockMs(8, 45 + i * 70)
    const base = campaignRow(splice, random, { takenMs, crew: 'Crew 7', id: `R26-8-${String(rows.length + 1).padStart(4, '0')}` })
    rows.push({ ...base, splice_id: '', platform: 'bucket', gnss_accuracy_m: 8, ...change })
  })
  const off = (splice: TrueSplice, eastM: number, northM: number) => {
    const [lon, lat] = shift(splice.place, eastM, northM)
    return { lon, lat }
  }
  const by = (splice: TrueSplice, change: ReadingRow) => [splice, change] as const

  day(0, [0.1, 0.27, 0.44, 0.61, 0.78, 0.93].map((share) => on(share < 0.5 ? '2310' : '2320', share)).map((s) =>
    by(s, { ...NOT_WRITTEN_DOWN, ...off(s, random.normal(0, 5), random.normal(0, 5)), note: 'Circuit not written down' })))
  day(1, [0.2, 0.5, 0.8].map((share) => on('1430', share)).map((s) =>
    by(s, { ...NOT_WRITTEN_DOWN, ...off(s, 390, -260), note: 'Position logged at the access gate' })))
  day(2, splices.filter((s) => s.unlisted && ['2330', '2340'].includes(s.section.plan.circuit)).slice(0, 2).map((s) =>
    by(s, { ...NOT_WRITTEN_DOWN, phase: '', position: '', note: 'Phase not noted' })))
  day(3, [0.3, 0.6].map((share) => on('1150', share)).map((s) =>
    by(s, { circuit: '1410', structure_back: '', structure_ahead: '', note: 'Filled in on the sheet of another job' })))
  day(4, [by(on('6910', 0.35), { circuit: '6919', structure_back: '', structure_ahead: '', note: 'Number read off a faded tag' })])
  day(5, [by(on('2350', 0.5), { ...NOT_WRITTEN_DOWN, lon: 0, lat: 0, note: 'Receiver had no fix' })])
  const { splice } = besideSplice(splices)
  day(6, [by(splice, { ...off(splice, 0, 0), note: 'Sleeve close by; label not legible' })])
  const urgent = on('2320', 0.52)
  day(8, [by(urgent, {
    ...NOT_WRITTEN_DOWN, ...off(urgent, 4, -3), side_a_uohm: '24.8', side_b_uohm: '51.3', conductor_uohm: '21.9',
    note: 'Read twice, both high; circuit tag out of sight from the bucket',
  })])
  return rows
}

/** Two slips of the pen that an import must name, and go on: one leaves the sides to count, the other loses its row. */
export function slips(splices: TrueSplice[]): ReadingRow[] {
  const random = new Random(4630)
  const row = (share: number, id: string, local: string, change: ReadingRow): ReadingRow =>
    ({ ...campaignRow(splices[Math.floor(splices.length * share)] as TrueSplice, random, { takenMs: at(local), crew: 'Crew 1', id }), ...change })
  return [
    row(0.31, 'R26-7-0001', '2026-10-02T09:40:00', { conductor_uohm: '0' }),
    row(0.33, 'R26-7-0002', '2062-10-02T09:55:00', {}),
  ]
}

