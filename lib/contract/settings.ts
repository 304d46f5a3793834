import { z } from 'zod'
import { classChanges } from './class-changes'
import { conditionClass } from './condition-class'

const instant = z.iso.datetime({ offset: true })

export const basemapSetting = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('embedded') }),
  z.strictObject({ kind: z.literal('pmtiles'), url: z.string() }),
  z.strictObject({ kind: z.literal('style'), url: z.string() }),
])

const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'Write hours and minutes, such as 14:00.')

/** When a circuit carries most, every day by the utility's clock; one that ends at or before it begins ends on the next day. */
export const peakPeriod = z.strictObject({ from: clock, to: clock })

/** GET and PUT /api/v1/settings. Inside the product phases are A, B, C; the letters are what the utility writes. */
export const settings = z.object({
  unit_system: z.enum(['us', 'metric']),
  /** IANA zone; times without an offset are read in it and shown in it. */
  time_zone: z.string(),
  utility_name: z.string(),
  phase_letters: z.strictObject({ A: z.string(), B: z.string(), C: z.string() }),
  basemap: basemapSetting,
  /** The utility's information-handling mark; stands on every print and export. */
  information_mark: z.string(),
  /** Urgent and critical come back to be looked at in each of these. */
  peak_periods: z.array(peakPeriod).max(4),
})

/** Body of PUT /api/v1/settings: those that are to change. */
export const settingsBody = settings.partial().strict()

/** GET /api/v1/policy, and each item of GET /api/v1/policy/history (newest first). `values` is lib/condition's policy. */
export const policyVersion = z.object({
  version: z.int(),
  values: z.record(z.string(), z.unknown()),
  procedure_no: z.string().nullable(),
  note: z.string().nullable(),
  /** The named person who stands behind the values; null for the defaults, and for versions of before names were asked for. */
  set_by: z.string().nullable(),
  created_at: instant,
  actor: z.string(),
})

export const policyHistory = z.object({ items: z.array(policyVersion) })

/** Whose advised current would differ, in whole amperes per phase as it is shown: how many rise and fall, and the most pressing by name. */
export const advisedChanges = z.object({
  rise: z.int(), fall: z.int(),
  /** No figure now, and one then; a figure now, and none then. */
  none_before: z.int(), none_after: z.int(),
  /** Of them urgent or critical. */
  acute: z.int(),
  /** That rise and then stand above a limit in force, which goes on holding. */
  over_in_force: z.int(),
  total: z.int(),
  /** The first 50: urgent and critical first, of these what rises above a limit in force. */
  splices: z.array(z.object({
    id: z.int(), splice: z.string(), /** As it is shown now. */ class: conditionClass, from_a: z.number().nullable(), to_a: z.number().nullable(),
    in_force_a: z.number().nullable(), over_in_force: z.boolean(),
  })),
})

/** Answer to POST /api/v1/policy/preview: which splices a change would reclassify. Nothing is stored. */
export const policyPreview = classChanges.extend({
  /** Urgent and critical that stay on show although their readings would say less by these values. */
  held_only: z.int(),
  advised: advisedChanges,
})

/** Answer to PUT /api/v1/policy: the new version, and the background reassessment it started. */
export const policySaved = policyVersion.extend({ job_id: z.int() })

/** GET /api/v1/jobs/{id}. */
export const jobStatus = z.object({
  id: z.int(),
  state: z.enum(['queued', 'running', 'done', 'failed']),
  progress: z.object({ done: z.int(), total: z.int().nullable() }).nullable(),
  failure: z.string().nullable(),
})

export type SettingsJson = z.infer<typeof settings>
export type PolicyVersionJson = z.infer<typeof policyVersion>
export type AdvisedChangesJson = z.infer<typeof advisedChanges>
export type PolicyPreviewJson = z.infer<typeof policyPreview>
export type JobStatus = z.infer<typeof jobStatus>
