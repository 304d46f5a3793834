import {
  assess, defaultPolicy, type Assessment, type Evidence, type InfraredEvidence, type Policy, type ResistanceEvidence, type SpliceFacts,
  type VisualEvidence,
} from '@/lib/condition'

export const DAY_MS = 86_400_000
export const YEAR_MS = 365.25 * DAY_MS
export const NOW_MS = Date.UTC(2026, 8, 1, 15)

export const DRAKE: SpliceFacts = { kind: 'full-tension splice', subconductors: 1, conductorCode: 'Drake', barrelOdMm: 47.6, ratingA: 900 }

let nextId = 1

/** Both sides of a Drake splice over 0.3048 m, k 0.70 and 0.75, now; a field given as undefined is left out. */
export const resistance = (fields: Partial<ResistanceEvidence> = {}): ResistanceEvidence => ({
  source: 'resistance', readingId: nextId++, takenAtMs: NOW_MS, survey: 'S1', afterRepair: false, sideAUohm: 15.05, sideBUohm: 16.1,
  conductorUohm: 21.5, electrodeSpanM: 0.3048, conductorTempC: 20, testCurrent: 'dead-dc', sidesDeclared: true, ...fields,
})

export const infrared = (fields: Partial<InfraredEvidence> = {}): InfraredEvidence => ({
  source: 'infrared', readingId: nextId++, takenAtMs: NOW_MS, survey: 'F1', afterRepair: false, spliceTempC: 40, conductorTempC: 42,
  referenceKind: 'own-conductor', ambientC: 20, windMS: 1, sun: 'none', rain1h: false, lineCurrentA: 600, current30minA: 600,
  emissivity: 0.7, distanceM: 30, ifovMrad: 0.34, viewAngleDeg: 20, ...fields,
})

export const visual = (findings: VisualEvidence['findings'], fields: Partial<VisualEvidence> = {}): VisualEvidence => ({
  source: 'visual', readingId: nextId++, takenAtMs: NOW_MS, survey: 'V1', afterRepair: false, findings, ...fields,
})

export const judge = (
  evidence: Evidence[], facts: Partial<SpliceFacts> = {}, policy: Policy = defaultPolicy, asOfMs = NOW_MS,
): Assessment => assess({ facts: { ...DRAKE, ...facts }, evidence, policy, asOfMs })

export const reasonCodes = (assessment: Assessment): string[] => assessment.reasons.map(({ code }) => code)
export const actionCodes = (assessment: Assessment): string[] => assessment.nextActions.map(({ code }) => code)
export const reasonOf = (assessment: Assessment, code: string) => assessment.reasons.find((reason) => reason.code === code)
