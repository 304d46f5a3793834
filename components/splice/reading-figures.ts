import type { ReadingJson } from '@/lib/contract/contract'
import { formatLength, type UnitSystem } from '@/lib/units/format'

const figure = (reading: ReadingJson, name: string): number | null => {
  const value = reading.fields[name]
  return typeof value === 'number' && Number.isFinite(value) ? value : null
}

export interface ResistanceFigures {
  sideAUohm: number | null
  sideBUohm: number | null
  conductorUohm: number | null
  electrodeSpanM: number | null
  conductorSpanM: number | null
}

export const resistanceFigures = (r: ReadingJson): ResistanceFigures => ({
  sideAUohm: figure(r, 'side_a_uohm'),
  sideBUohm: figure(r, 'side_b_uohm'),
  conductorUohm: figure(r, 'conductor_uohm') ?? figure(r, 'conductor_b_uohm'),
  electrodeSpanM: figure(r, 'electrode_span_m'),
  conductorSpanM: figure(r, 'conductor_span_m'),
})

/** With what and where it was measured, as far as the row said: 'KF-115-02, barrel electrode 0.20 m in, conductor over 0.30 m'. */
export function howMeasured(r: ReadingJson, system: UnitSystem): string {
  const { electrodeSpanM, conductorSpanM } = resistanceFigures(r)
  const barrelM = figure(r, 'barrel_electrode_m')
  const instrument = r.fields.instrument
  return [
    typeof instrument === 'string' ? instrument : '',
    barrelM === null ? '' : `barrel electrode ${formatLength(barrelM, system)} from the mouth`,
    conductorSpanM === null || conductorSpanM === electrodeSpanM ? '' : `conductor over ${formatLength(conductorSpanM, system)}`,
  ].filter(Boolean).join(', ')
}

export const infraredFigures = (r: ReadingJson) => ({
  spliceTempC: figure(r, 'splice_temp_c'),
  conductorTempC: figure(r, 'conductor_temp_c'),
  ambientC: figure(r, 'ambient_c'),
  lineCurrentA: figure(r, 'line_current_a'),
  windMS: figure(r, 'wind_m_s'),
})

export interface RatioPoint { side: 'A' | 'B'; atMs: number; ratio: number; readingId: number }

/**
 * Side over conductor as read, for the small plot over time. Readings without a time, without a conductor reading, or with
 * spans that differ are left out: their ratio needs the engine.
 */
export function ratioPoints(readings: readonly ReadingJson[]): RatioPoint[] {
  return readings.filter((r) => r.kind === 'resistance' && r.taken_at !== null).flatMap((r) => {
    const f = resistanceFigures(r)
    const atMs = Date.parse(r.taken_at ?? '')
    const spansDiffer = f.conductorSpanM !== null && f.electrodeSpanM !== null && Math.abs(f.conductorSpanM / f.electrodeSpanM - 1) > 0.005
    const conductor = f.conductorUohm
    if (conductor === null || conductor <= 0 || spansDiffer || Number.isNaN(atMs)) return []
    return ([['A', f.sideAUohm], ['B', f.sideBUohm]] as const)
      .flatMap(([side, uohm]) => (uohm === null ? [] : [{ side, atMs, ratio: uohm / conductor, readingId: r.id }]))
  }).sort((a, b) => a.atMs - b.atMs)
}
