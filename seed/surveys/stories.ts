import { shift } from '../ground'
import { Random } from '../random'
import type { TrueSplice } from '../splices'
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
  const read = (id: string, local: string, crew: string, sides: [number, number, number], after: boolean, note: string): ReadingRow => ({
    ...campaignRow(splice, random, { takenMs: at(local), crew, id }), splice_id: splice.label, platform: 'bucket',
    side_a_uohm: sides[0].toFixed(1), side_b_uohm: sides[1].toFixed(1), conductor_uohm: sides[2].toFixed(1), ambient_c: '17.0',
    test_current: 'dead-dc', line_current_a: '', after_repair: after ? 'yes' : 'no', note,
  })
  return {
    splice,
    finding: [
      read('R26-9-0001', '2026-09-17T10:20:00', 'Crew 2', [10, 53, 12], false, 'Control room called 10:35'),
      read('R26-9-0002', '2026-09-18T08:10:00', 'Crew 3', [10.2, 52.4, 12.1], false, 'Confirming reading, second instrument'),
    ],
    proof: [
      read('P26-0001', '2026-10-06T14:40:00', 'Crew 2', [8, 7, 12], true, 'Cut out and spliced anew'),
      read('P26-0002', '2026-10-07T09:05:00', 'Crew 3', [8.1, 7, 12], true, 'Read again by the second crew'),
    ],
  }
}

/** Two crews, a week apart, do not agree: the second, good reading does not clear the first. */
export function conflict(splices: TrueSplice[]): { splice: TrueSplice; rows: ReadingRow[] } {
  const splice = near(splices, '2330', 'A', 'full-tension splice', 0.3)
  const random = new Random(4610)
  const row = (id: string, local: string, crew: string, a: string, b: string): ReadingRow => ({
    ...campaignRow(splice, random, { takenMs: at(local), crew, id }), splice_id: splice.label, side_a_uohm: a, side_b_uohm: b,
    conductor_uohm: '22.1', test_current: 'dead-dc', line_current_a: '',
  })
  return { splice, rows: [
    row('R26-9-0003', '2026-10-12T11:15:00', 'Crew 2', '13.4', '47.9'), row('R26-9-0004', '2026-10-20T13:30:00', 'Crew 4', '12.9', '15.6'),
  ] }
}

/** Readings that nobody can place without a person: each for another reason. */
export function doubtful(splices: TrueSplice[]): ReadingRow[] {
  const random = new Random(4620)
  const rows: ReadingRow[] = []
  const add = (splice: TrueSplice, change: ReadingRow) => {
    const n = rows.length
    const base = campaignRow(splice, random, {
      takenMs: at('2026-11-02T08:00:00') + Math.floor(n / 6) * 86_400_000 + (n % 6) * 75 * 60_000, crew: 'Patrol', id: `R26-8-${String(n + 1).padStart(4, '0')}`,
    })
    rows.push({ ...base, splice_id: '', platform: 'ground', gnss_accuracy_m: 8, ...change })
  }
  const blankCircuit = { circuit: '', section: '', structure_back: '', structure_ahead: '', circuit_side: '' }
  const pick = (circuit: string, share: number) => {
    const here = splices.filter((s) => s.section.plan.circuit === circuit && s.section.section === 'main')
    return here[Math.floor(here.length * share)] as TrueSplice
  }
  for (const share of [0.1, 0.27, 0.44, 0.61, 0.78, 0.93]) {
    const splice = pick(share < 0.5 ? '2310' : '2320', share)
    const [lon, lat] = shift(splice.place, random.normal(0, 5), random.normal(0, 5))
    add(splice, { ...blankCircuit, lon, lat, note: 'Circuit not written down' })
  }
  for (const share of [0.2, 0.5, 0.8]) {
    const splice = pick('1430', share)
    const [lon, lat] = shift(splice.place, 390, -260)
    add(splice, { ...blankCircuit, lon, lat, note: 'Position from the truck' })
  }
  for (const share of [0.15, 0.4, 0.7]) add(pick('2340', share), { ...blankCircuit, phase: '', position: '', note: 'Phase not noted' })
  for (const share of [0.3, 0.6]) add(pick('1150', share), { circuit: '1410', structure_back: '', structure_ahead: '', note: '' })
  add(pick('6910', 0.35), { circuit: '6919', structure_back: '', structure_ahead: '', note: 'Number read off a faded tag' })
  add(pick('2350', 0.5), { ...blankCircuit, lon: 0, lat: 0, note: 'Receiver had no fix' })
  const urgent = pick('2320', 0.52)
  const [lon, lat] = shift(urgent.place, 4, -3)
  add(urgent, { ...blankCircuit, lon, lat, side_a_uohm: '24.8', side_b_uohm: '51.3', conductor_uohm: '21.9', note: 'Hot by eye at dusk, circuit not certain' })
  return rows
}

/** Two slips of the pen that an import must refuse by name, and go on. */
export function slips(splices: TrueSplice[]): ReadingRow[] {
  const random = new Random(4630)
  const row = (share: number, id: string, local: string, change: ReadingRow): ReadingRow =>
    ({ ...campaignRow(splices[Math.floor(splices.length * share)] as TrueSplice, random, { takenMs: at(local), crew: 'Crew 1', id }), ...change })
  return [
    row(0.31, 'R26-7-0001', '2026-10-02T09:40:00', { conductor_uohm: '0' }),
    row(0.33, 'R26-7-0002', '2062-10-02T09:55:00', {}),
  ]
}

