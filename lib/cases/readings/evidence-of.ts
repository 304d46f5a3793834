import type { Evidence } from '@/lib/condition'
import type { ReadingRecord } from '@/lib/intake'

/** What one row says of a splice by itself; null for infrared, whose own numbers are never urgent. */
export function evidenceOf(r: ReadingRecord, readingId: number): Evidence | null {
  const base = { readingId, takenAtMs: r.takenAt?.getTime(), instrument: r.instrument ?? undefined, afterRepair: r.afterRepair }
  switch (r.kind) {
    case 'infrared': return null
    case 'visual': return { ...base, source: 'visual', findings: r.findings }
    case 'resistance': return {
      ...base, source: 'resistance', sideAUohm: r.sideAUohm ?? undefined, sideBUohm: r.sideBUohm ?? undefined,
      conductorUohm: r.conductorUohm ?? undefined, conductorBUohm: r.conductorBUohm ?? undefined, electrodeSpanM: r.electrodeSpanM ?? undefined,
      conductorSpanM: r.conductorSpanM ?? undefined, barrelElectrodeM: r.barrelElectrodeM ?? undefined, repeatNo: r.repeatNo ?? undefined,
      testCurrent: r.testCurrent ?? undefined, lineCurrentA: r.lineCurrentA ?? undefined, conductorTempC: r.conductorTempC ?? undefined,
      ambientC: r.ambientC ?? undefined, sidesDeclared: r.structureBack !== null || r.structureAhead !== null,
    }
  }
}
