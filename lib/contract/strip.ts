import { z } from 'zod'
import { conditionClass } from './condition-class'
import { confidence } from './contract'
import { spanCoverage } from './coverage'
import { spliceOnSection } from './section'

const id = z.int().positive()

/** A splice in service as the strip marks it. */
export const stripSplice = spliceOnSection.extend({
  section_id: id,
  lon: z.number(),
  lat: z.number(),
  /** The class on show; `held` where it stands above what the evidence by itself says. */
  class: conditionClass,
  held: z.boolean(),
  confidence,
  /** Goes with `class`; null: no usable one. */
  ratio: z.number().nullable(),
  flags: z.array(z.string()),
  /** By when it is to be measured again; past it, `class` is of then. */
  measure_by: z.iso.datetime({ offset: true }).nullable(),
  /** Whether the filter that was asked with lets it through; true without one. */
  in_filter: z.boolean(),
})

/** Another circuit on the same structures, as far as it hangs there. */
export const stripBeside = z.object({
  circuit_id: id,
  circuit: z.string(),
  line_name: z.string().nullable(),
  /** Of the straightened circuit, where the other hangs beside it. */
  stretches: z.array(z.object({ section_id: id, from_m: z.number(), to_m: z.number() })),
  splices: z.array(stripSplice.extend({
    /** The place of the straightened circuit that is abreast of it; `section_id` and `line_distance_m` are its own circuit's. */
    abreast: z.object({ section_id: id, line_distance_m: z.number() }),
  })),
})

/** GET /api/v1/circuits/{id}/strip: a circuit straightened. Line distances are those of the section, from its named end. */
export const circuitStrip = z.object({
  circuit_id: id,
  circuit: z.string(),
  line_name: z.string().nullable(),
  sections: z.array(z.object({
    id,
    name: z.string(),
    from: z.string().nullable(),
    to: z.string().nullable(),
    start_m: z.number(),
    end_m: z.number(),
    /** Named structures in line order. */
    structures: z.array(z.object({ structure: z.string(), line_distance_m: z.number() })),
  })),
  /** In line order, section by section, each with its course: longitude and latitude in turn. */
  spans: z.array(spanCoverage.extend({ section_id: id, lon_lat: z.array(z.number()) })),
  splices: z.array(stripSplice),
  beside: z.array(stripBeside),
  /** Of the section 'main'. */
  crossings: z.array(z.object({ id, kind: z.string(), name: z.string().nullable(), line_distance_m: z.number() })),
})

export type StripBeside = z.infer<typeof stripBeside>
export type StripSplice = z.infer<typeof stripSplice>
export type CircuitStrip = z.infer<typeof circuitStrip>
