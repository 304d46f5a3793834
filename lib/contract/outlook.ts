import { z } from 'zod'

const instant = z.iso.datetime({ offset: true })
const worseClass = z.enum(['watch', 'degraded', 'urgent', 'critical'])
const readingIds = z.array(z.union([z.int(), z.string()]))

/** One source of the ratio of a whole splice: as measured, and as it counts on the day of the assessment. */
export const ratioSource = z.object({
  /** resistance: the mean of both sides, which is what infrared can be compared with. */
  source: z.enum(['resistance', 'infrared']),
  k: z.number(),
  /** Standard error of ln k. */
  u_ln_k: z.number(),
  aged_k: z.number(),
  aged_u_ln_k: z.number(),
  taken_at: instant.nullable(),
  reading_ids: readingIds,
})

/** How infrared and resistance were brought together. */
export const fusion = z.object({
  sources: z.array(ratioSource),
  /** Squared difference over the sum of the squared errors; over `limit` both cannot be right. Null where they cannot be compared. */
  statistic: z.number().nullable(),
  limit: z.number(),
  conflict: z.boolean(),
  /** Readings of every interface after the picture settled that resistance is right. */
  settled: z.boolean(),
  /** What the class rests on. */
  taken: z.enum(['both', 'resistance', 'infrared']),
  /** What is believed of the whole splice where infrared makes the class, and that figure decides; null elsewhere. */
  believed: z.object({ k: z.number(), u_ln_k: z.number() }).nullable(),
})

/** Growth of ln k of one side, or of the splice by infrared, since the last repair. */
export const trend = z.object({
  series: z.enum(['A', 'B', 'infrared']),
  method: z.enum(['readings', 'with-usual-growth']),
  growth_per_year: z.number(),
  u_growth_per_year: z.number(),
  growing: z.boolean(),
  accelerating: z.boolean(),
  points: z.array(z.object({ taken_at: instant, k: z.number(), u_ln_k: z.number(), reading_ids: readingIds })),
  /** When an edge is passed, most likely and at the earliest; null without growth. */
  passings: z.array(z.object({ class: worseClass, k: z.number(), median_at: instant.nullable(), earliest_at: instant.nullable() })),
})

/** What a splice may carry at rating weather: advice for the rating engineer, thermal only. It says nothing of tension, fault current or ageing. */
export const carryingLimit = z.object({
  /** Line current per phase. */
  line_a: z.number(),
  mva: z.number().nullable(),
  limited_by: z.enum(['splice', 'section']),
  /** What the splice alone would allow: per phase, and per subconductor with equal shares taken. */
  splice_line_a: z.number(),
  splice_subconductor_a: z.number(),
  /** What the section allows, per phase, and where that comes from. */
  section_a: z.number(),
  section_from: z.enum(['rating', 'conductor']),
  /** Temperature that the splice is not to pass. */
  splice_c: z.number(),
  /** The ratio that it lies under as often as `upper_share` says, a share. */
  upper_k: z.number(),
  upper_share: z.number(),
  weather: z.object({ ambient_c: z.number(), wind_m_s: z.number(), wind_angle_deg: z.number(), sun_w_m2: z.number(), elevation_m: z.number() }),
  /** Known flows of the circuit against it; over_a is 0 or less where they do not pass it. */
  /** The ratio of the finding that holds the class, where the figure is drawn at it until it is cleared; null: drawn at the readings. */
  held_ratio: z.number().nullable(),
  flows: z.array(z.object({ flow: z.enum(['present', 'expected_peak', 'post_contingency']), current_a: z.number(), over_a: z.number() })),
})

/** What an assessment says of the days to come. */
export const outlook = z.object({
  fusion: fusion.nullable(),
  trends: z.array(trend),
  next_reading_due_at: instant.nullable(),
  limit: carryingLimit.nullable(),
  /** Where the splice limits: line current per phase in hotter air, the rest of that weather as it is. Not a rating. */
  in_hotter_air: z.array(z.object({ ambient_c: z.number(), line_a: z.number() })),
  /** Why there is no limit and whom to ask, in a sentence; null where there is one, and where none is needed. */
  no_limit: z.string().nullable(),
  caution: z.string(),
})

/** A number of a step with its symbol in the formula; SI, with µΩ, °C and years where the trade uses them. */
const workingValue = z.object({ symbol: z.string(), meaning: z.string(), value: z.number(), unit: z.string() })

/** Formulas, values and sources in the order of the working. */
export const working = z.object({
  engine_version: z.string(),
  policy_version: z.int(),
  assessed_at: instant,
  steps: z.array(z.object({ title: z.string(), formula: z.string(), inputs: z.array(workingValue), result: workingValue, source: z.string() })),
})

export type Outlook = z.infer<typeof outlook>
export type CarryingLimit = z.infer<typeof carryingLimit>
export type TrendJson = z.infer<typeof trend>
export type WorkingJson = z.infer<typeof working>
