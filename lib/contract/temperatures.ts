import { z } from 'zod'

const instant = z.iso.datetime({ offset: true })

/** Steady temperature of a splice at a load in a weather: no rating. */
const reckoned = z.object({
  /** Per phase. */
  line_a: z.number(),
  /** At the ratio that is believed, and at the one it is believed to lie under; null: it comes to no rest below 400 °C. */
  believed_c: z.number().nullable(),
  upper_c: z.number().nullable(),
  ambient_c: z.number(),
  wind_m_s: z.number(),
  /** When that weather was noted here, only where it and the load are of the last hour; null: the weather of the utility's ratings. */
  weather_at: instant.nullable(),
})

/**
 * How hot a splice is at the last known load of its section and at its rating; where one cannot be reckoned, why and whom to ask. Neither is given
 * where the class is held and the splice has no figure of its own: what the readings now say would look cool beside the finding.
 */
export const jointTemperatures = z.object({
  /** How often a splice lies under `upper_c`, as a share. */
  upper_share: z.number(),
  at_load: reckoned.nullable(),
  no_at_load: z.string().nullable(),
  at_rating: reckoned.nullable(),
  no_at_rating: z.string().nullable(),
  /**
   * Per phase, the current that brings the conductor to the section's maximum operating temperature in rating weather: computed class edges are
   * those at it. Null where that temperature or the conductor is not known.
   */
  edges_at_a: z.number().nullable(),
  /** Of the conductor at the section's rating, in rating weather; null where rating or conductor is not known, or it comes to no rest. */
  conductor_at_rating_c: z.number().nullable(),
})

export type JointTemperaturesJson = z.infer<typeof jointTemperatures>
