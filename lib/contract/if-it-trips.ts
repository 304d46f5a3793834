import { z } from 'zod'

const instant = z.iso.datetime({ offset: true })
const text = z.string().trim().min(1).max(300).nullable()
const hours = (least: number, most: number) => z.number().min(least).max(most).nullable()

const noted = {
  /** Who loses supply. */
  loses_supply: text,
  /** Isolating points. */
  isolated_by: text,
  /** Who is called, in order, a line each. */
  called: text,
  /** Until a crew is on site. */
  on_site_h: hours(0, 168),
  /** How long a repair takes from then on. */
  repair_h: hours(0.1, 1000),
  /** How soon the circuit is handed back once it is asked for. */
  recall_h: hours(0, 168),
}

/** What operations asks of a circuit when it trips, as a named person noted it. Null: nobody has said. */
export const ifItTrips = z.object({ ...noted, noted_by: z.string().nullable(), noted_at: instant.nullable() })

/** PUT /api/v1/circuits/{id}/if-it-trips: all of it, by name. What is null is not known; with nothing known the record is gone. */
export const ifItTripsBody = z.strictObject({ ...noted, noted_by: z.string().trim().min(1).max(200) })

/** The same on the sheet of a splice, with what the lines and crossings on file say. */
export const tripOfSplice = ifItTrips.extend({
  from: z.string().nullable(),
  to: z.string().nullable(),
  /** Null: not on file. */
  radial: z.boolean().nullable(),
  /** Load served. */
  mw: z.number().nullable(),
  /** What its span passes over. Empty: nothing is on file, which does not say that nothing is there. */
  crossings: z.array(z.object({ kind: z.string(), name: z.string().nullable(), line_distance_m: z.number() })),
})

export type IfItTrips = z.infer<typeof ifItTrips>
export type IfItTripsBody = z.infer<typeof ifItTripsBody>
export type TripOfSplice = z.infer<typeof tripOfSplice>
