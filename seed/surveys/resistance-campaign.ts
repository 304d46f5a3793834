import { conductorByCode } from '@/lib/condition'
import { ambientC, clockMs, conductorRiseK, workdayMs } from '../calendar'
import { shift } from '../ground'
import type { BuiltSection } from '../network'
import { Random } from '../random'
import { ratiosIn, type TrueSplice } from '../splices'

const CAMPAIGN = 'Resistance campaign 2026'
export const ELECTRODE_SPAN_M = 0.3048
export type ReadingRow = { [field: string]: string | number }

const YEAR = 2026.8
const FIRST_MONDAY = '2026-09-14'
/** Which circuits each crew works through, in order; a circuit that is not here was not reached this year. */
const ROUNDS: Record<string, string[]> = {
  'Crew 1': ['2310', '2320', '1150'], 'Crew 2': ['3420', '2330', '2340'], 'Crew 3': ['1420', '1410', '2350'], 'Crew 4': ['1430', '6910'],
}
const PER_DAY = 16

export function conductorUohm(section: BuiltSection, conductorC: number): number {
  const conductor = conductorByCode(section.conductor)
  if (!conductor) throw new Error(`No conductor ${section.conductor} in the table`)
  return conductor.rdc20OhmPerKm * 1e3 * ELECTRODE_SPAN_M * (1 + conductor.alpha20PerK * (conductorC - 20))
}

const noisy = (random: Random, uohm: number) => Math.max(0.5, uohm * random.normal(1, 0.008) + random.normal(0, 0.25)).toFixed(1)

/**
 * A micro-ohmmeter on a hot stick touches the conductor, so somebody or something is up there: a bucket truck, on 345 kV a robot
 * on the line. Energised lines are read with their own current, well above what any instrument needs; 69 kV is read dead.
 */
export function campaignRow(splice: TrueSplice, random: Random, at: { takenMs: number; crew: string; id: string; year?: number }): ReadingRow {
  const airC = ambientC(at.takenMs, random)
  const windMS = random.between(0.8, 5.5)
  const [a, b] = ratiosIn(splice, at.year ?? YEAR)
  const aloft = splice.section.plan.voltageKv >= 300
  const live = splice.section.plan.voltageKv > 100
  const load = live ? random.between(0.3, 0.6) : 0
  const conductor = conductorUohm(splice.section, airC + 2 + conductorRiseK(load, windMS))
  const accuracyM = aloft ? 3.5 : 5
  const sigmaM = accuracyM / 1.515
  const [lon, lat] = shift(splice.place, random.normal(0, sigmaM), random.normal(0, sigmaM))
  return {
    reading_id: at.id, survey: CAMPAIGN, taken_at: new Date(at.takenMs).toISOString(), lon, lat, gnss_accuracy_m: accuracyM, position_of: 'target',
    platform: aloft ? 'line_robot' : 'bucket', kind: 'resistance', circuit: splice.section.plan.circuit, section: splice.section.section,
    structure_back: splice.back.label, structure_ahead: splice.ahead.label, phase: splice.phase, position: splice.position,
    circuit_side: splice.circuitSide, subconductor: splice.subconductor,
    splice_id: !splice.unlisted && random.chance(0.6) ? splice.label : '',
    side_a_uohm: noisy(random, a * conductor), side_b_uohm: noisy(random, b * conductor), conductor_uohm: noisy(random, conductor),
    electrode_span_m: ELECTRODE_SPAN_M, conductor_span_m: ELECTRODE_SPAN_M, test_current: live ? 'live-ac' : 'dead-dc',
    line_current_a: live ? Math.round(splice.section.ratingA * load) : '', ambient_c: airC.toFixed(1), wind_m_s: windMS.toFixed(1), rain_1h: 'no',
    after_repair: 'no', crew: at.crew, instrument: `Micro-ohmmeter ${at.crew.slice(-1)}`, note: '',
  }
}

/** Crews go along their circuits day by day; one splice in seven is read three times with the electrodes seated anew. */
export function campaignRows(splices: TrueSplice[]): ReadingRow[] {
  const random = new Random(4500)
  const rows: ReadingRow[] = []
  for (const [crew, circuits] of Object.entries(ROUNDS)) {
    let visit = 0
    for (const circuit of circuits) {
      for (const splice of splices.filter((s) => s.section.plan.circuit === circuit)) {
        if (!splice.unlisted && !random.chance(0.82)) continue
        const startMs = workdayMs(FIRST_MONDAY, Math.floor(visit / PER_DAY)) + clockMs(8, (visit % PER_DAY) * 34)
        const repeats = random.chance(1 / 7) ? 3 : 1
        for (let r = 1; r <= repeats; r++) {
          const id = `R26-${crew.slice(-1)}-${String(visit + 1).padStart(4, '0')}${repeats > 1 ? `.${r}` : ''}`
          const row = campaignRow(splice, random, { takenMs: startMs + (r - 1) * 4 * 60_000, crew, id })
          rows.push(repeats > 1 ? { ...row, repeat_no: r } : row)
        }
        visit++
      }
    }
  }
  return rows
}
