import type { Evidence } from '@/lib/condition'
import type { ReadingRecord } from '@/lib/intake'

const known = <T>(value: T | null): T | undefined => (value === null ? undefined : value)

/**
 * What one row says of a splice by itself; null for infrared, which says nothing without the conductor that its place tells. A picture that proves
 * something raises its notice by the assessment of its splice.
 */
export function evidenceOf(r: ReadingRecord, readingId: number): Evidence | null {
  if (r.kind === 'infrared') return null
  const takenAtMs = r.takenAt?.getTime()
  if (r.kind === 'visual') {
    return { source: 'visual', readingId, takenAtMs, instrument: known(r.instrument), afterRepair: r.afterRepair, findings: r.findings }
  }
  // One literal, because there are many readings.
  return {
    source: 'resistance', readingId, takenAtMs, instrument: known(r.instrument), afterRepair: r.afterRepair, sideAUohm: known(r.sideAUohm),
    sideBUohm: known(r.sideBUohm), conductorUohm: known(r.conductorUohm), conductorBUohm: known(r.conductorBUohm),
    conductorUnusable: known(r.conductorUnusable),
    electrodeSpanM: known(r.electrodeSpanM), conductorSpanM: known(r.conductorSpanM), barrelElectrodeM: known(r.barrelElectrodeM),
    repeatNo: known(r.repeatNo), testCurrent: known(r.testCurrent), lineCurrentA: known(r.lineCurrentA), conductorTempC: known(r.conductorTempC),
    ambientC: known(r.ambientC), sidesDeclared: r.structureBack !== null || r.structureAhead !== null,
  }
}
