import { z } from 'zod'

const id = z.int().positive()

/** What a section last carried as far as is known; what is suspect is never that. */
export const lastLoad = z.object({
  /** Per phase. */
  current_a: z.number(),
  taken_at: z.iso.datetime({ offset: true }),
  /** Null: nobody said. */
  quality: z.enum(['measured', 'estimated']).nullable(),
})

/** A figure of the planner, per phase, with the moment it stands for. */
export const planned = z.object({ current_a: z.number(), taken_at: z.iso.datetime({ offset: true }) })

/** A section of a circuit wherever it is listed. Currents per phase; null: not known. */
export const section = z.object({
  id,
  name: z.string(),
  from: z.string().nullable(),
  to: z.string().nullable(),
  conductor: z.string().nullable(),
  subconductors: z.int(),
  rating_a: z.number().nullable(),
  rating_emergency_a: z.number().nullable(),
  max_operating_c: z.number().nullable(),
  /** Above sea level; null: that of the rating weather is taken. */
  elevation_m: z.number().nullable(),
  length_m: z.number(),
  last_load: lastLoad.nullable(),
})

/** Where on its section a splice sits and what fitting it is, wherever one is listed. */
export const spliceOnSection = z.object({
  id,
  /** splice_id, or 'found 1234' where survey found it and nobody has named it. */
  splice: z.string(),
  phase: z.string().nullable(),
  position: z.string().nullable(),
  circuit_side: z.string().nullable(),
  subconductor: z.string().nullable(),
  kind: z.string(),
  structure_back: z.string().nullable(),
  structure_ahead: z.string().nullable(),
  /** Ahead of structure_back, else of the section's named end. */
  offset_m: z.number(),
  line_distance_m: z.number(),
})
