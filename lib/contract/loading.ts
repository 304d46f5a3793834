import { z } from 'zod'
import { conditionClass } from './condition-class'
import { planned, section, spliceOnSection } from './section'

const id = z.int().positive()
const instant = z.iso.datetime({ offset: true })

/** A section as a question of load takes it. Currents per phase; null: not known. */
export const sectionOfLine = section.extend({
  circuit_id: id,
  circuit: z.string(),
  line_name: z.string().nullable(),
  voltage_kv: z.number().nullable(),
  /** What the planner last said that it will carry at most, and after the worst single outage elsewhere; null: nobody did. */
  expected_peak: planned.nullable(),
  post_contingency: planned.nullable(),
  /** The last known load and what was known of the 24 hours before it, oldest first; nothing that is suspect. */
  day_loads: z.array(z.object({ taken_at: instant, current_a: z.number() })),
  splice_count: z.int(),
  /** Outside diameters of the barrels that are on record, mm, each size once; `barrels_unknown` splices have none. */
  barrels_od_mm: z.array(z.number()),
  barrels_unknown: z.int(),
  /** Middle of the section, WGS84. */
  lon: z.number(),
  lat: z.number(),
  /** From its first end straight to its last, clockwise from north, 0 … 360: what sun by the hour is reckoned with. */
  azimuth_deg: z.number(),
})

export const sectionList = z.object({ items: z.array(sectionOfLine) })

/** A splice in service with the ratio that it is reckoned with at a load. */
export const lineJoint = spliceOnSection.extend({
  section_id: id,
  fitting_type: z.string().nullable(),
  barrel_od_mm: z.number().nullable(),
  /** The class on show; held where the evidence alone would say a better one. */
  class: conditionClass,
  held: z.boolean(),
  /** As believed, and what it is believed to lie under with the policy's chance: limits are drawn from that one. */
  k: z.number(),
  upper_k: z.number(),
  /**
   * read: by its readings. finding: by the finding that holds its class. unread: no usable ratio, so by what the policy believes of an unread splice.
   * contradicted: so too, for its heat or its strands show more than the ratio that was read.
   */
  basis: z.enum(['read', 'finding', 'unread', 'contradicted']),
  /** Whether a current may be given for it. False of an unread one, and of a held one for which its own sheet gives none. */
  figure: z.boolean(),
  /** What stands of it on the register of limits, whatever its readings say; null: nothing. Only one in force or lapsed (ask-engineer) binds. */
  limit: z.object({ line_a: z.number(), mva: z.number().nullable(), standing: z.enum(['proposed', 'agreed', 'in-force', 'ask-engineer']) }).nullable(),
  /** What falls due of an urgent or critical splice, so that paper lapses by then; null of the rest. */
  response: z.object({
    actions: z.array(z.object({ code: z.string(), withinHours: z.number().optional(), withinDays: z.number().optional() })),
    raised_at: instant.nullable(),
    last_reading_at: instant.nullable(),
    next_reading_due_at: instant.nullable(),
  }).nullable(),
})

/** GET /api/v1/circuits/{id}/joints */
export const circuitJoints = z.object({
  circuit_id: id,
  circuit: z.string(),
  policy_version: z.int(),
  sections: z.array(sectionOfLine.extend({
    /** Named structures in line order. */
    structures: z.array(z.object({ structure: z.string(), line_distance_m: z.number() })),
  })),
  /** In line order, section by section. */
  joints: z.array(lineJoint),
})

export type SectionOfLineJson = z.infer<typeof sectionOfLine>
export type LineJointJson = z.infer<typeof lineJoint>
export type CircuitJointsJson = z.infer<typeof circuitJoints>
