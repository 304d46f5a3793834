import { z } from 'zod'
import { conditionClass } from '@/lib/contract/condition-class'

const measured = z.enum(['sound', 'watch', 'degraded', 'urgent', 'critical'])

/** One interface as measured and as believed; see lib/condition SideAssessment. Only what the sheet draws is read. */
const side = z.object({
  side: z.enum(['A', 'B']),
  ratio: z.number(),
  sideUohm: z.number(),
  conductorUohm: z.number(),
  uRatio: z.number(),
  meanLnK: z.number(),
  sdLnK: z.number(),
  medianK: z.number(),
  pOver: z.object({ watch: z.number(), degraded: z.number(), urgent: z.number(), critical: z.number() }),
  class: measured,
  flags: z.array(z.string()),
  takenAtMs: z.number().optional(),
})

const surface = z.object({ emissivity: z.number(), age: z.enum(['new', 'young', 'weathered', 'stated']), ageKnown: z.boolean() })

const infraredNote = z.object({
  readingId: z.union([z.number(), z.string()]),
  takenAtMs: z.number().optional(),
  lineCurrentA: z.number().optional(),
  loadShare: z.number().optional(),
  spliceTempC: z.number().optional(),
  referenceKind: z.enum(['own-conductor', 'same-fitting', 'air']).optional(),
  overConductorK: z.number().optional(),
  overAmbientK: z.number().optional(),
  windMS: z.number().optional(),
  k: z.number().optional(),
  camera: z.object({
    emissivity: z.number(), reflectedC: z.number(), reflectedFrom: z.enum(['camera', 'air']), trueReflectedC: z.number().optional(), spectrum: z.enum(['lw', 'mw', 'total']),
  }).optional(),
  surfaces: z.object({ barrel: surface, conductor: surface }).optional(),
  trueSpliceC: z.number().optional(),
  trueOverConductorK: z.number().optional(),
  trueOverAmbientK: z.number().optional(),
  kIfBright: z.number().optional(),
  kIfWeathered: z.number().optional(),
  inconclusive: z.array(z.string()),
  hot: z.boolean(),
  criteria: z.array(z.object({
    column: z.enum(['similar component', 'ambient air']), fromK: z.number(), upToK: z.number().nullable(), action: z.string(), source: z.string(),
  })),
})

const visit = z.object({
  takenAtMs: z.number().optional(),
  sides: z.array(z.object({ side: z.enum(['A', 'B']), ratio: z.number(), uRatio: z.number(), sidesDeclared: z.boolean() })),
  readingIds: z.array(z.union([z.number(), z.string()])),
})

const trend = z.object({
  series: z.enum(['A', 'B', 'infrared']),
  growing: z.boolean(),
  points: z.array(z.object({ takenAtMs: z.number(), k: z.number(), uLnK: z.number() })),
  passings: z.array(z.object({ class: measured, k: z.number(), medianAtMs: z.number().nullable(), earliestAtMs: z.number().nullable() })),
  line: z.object({
    fit: z.object({ centre: z.number(), level: z.number(), slope: z.number(), uLevel: z.number(), uSlope: z.number(), uNext: z.number() }),
    quantile: z.number(),
  }),
  originMs: z.number(),
})

const storedAssessment = z.object({
  engineVersion: z.string(),
  policyVersion: z.number(),
  class: conditionClass,
  governingSide: z.enum(['A', 'B']).optional(),
  raisedBy: z.enum(['heat', 'strands']).optional(),
  sides: z.array(side),
  asymmetry: z.number().optional(),
  edges: z.object({
    watch: z.number(), degraded: z.number(), urgent: z.number(), critical: z.number(), basis: z.string(), upToC: z.number().optional(),
  }),
  flags: z.array(z.string()),
  nextActions: z.array(z.object({ code: z.string(), withinHours: z.number().optional(), withinDays: z.number().optional() })),
  mechanicalFindings: z.array(z.string()),
  infrared: z.array(infraredNote).catch([]),
  visits: z.array(visit).catch([]),
  trends: z.array(trend).default([]).catch([]),
})

export type StoredAssessment = z.infer<typeof storedAssessment>
export type StoredSide = z.infer<typeof side>
export type StoredTrend = z.infer<typeof trend>
export type StoredInfrared = z.infer<typeof infraredNote>

/** Null where the stored form is of an engine that this page does not know: the sheet then shows the sentences alone. */
export function readAssessment(json: Record<string, unknown> | null): StoredAssessment | null {
  const parsed = storedAssessment.safeParse(json)
  return parsed.success ? parsed.data : null
}

/** Central 90 % of what is believed of a side's ratio. */
export function believedInterval(of: Pick<StoredSide, 'meanLnK' | 'sdLnK'>): [low: number, high: number] {
  return [Math.exp(of.meanLnK - 1.645 * of.sdLnK), Math.exp(of.meanLnK + 1.645 * of.sdLnK)]
}
