import { z } from 'zod'
import { conditionClass } from './condition-class'
import { reviewCause } from './contract'
import { circuitList } from './filter'
import { pageQuery } from './page'
import { urgentReading } from './urgent'

const id = z.int().positive()
const instant = z.iso.datetime({ offset: true })

/** What can have changed, in the order in which it is read. */
export const CHANGE_KINDS = ['class', 'notice', 'conflict', 'advised', 'limit', 'cleared', 'repair', 'reading', 'waiting'] as const
export type ChangeKind = (typeof CHANGE_KINDS)[number]

const splice = z.object({ id, splice: z.string(), circuit_id: id, circuit: z.string(), position_text: z.string() })

/**
 * rise: worse than before. lost: it was known and is not any more. fall: better than before. new: first known, and sound.
 * A splice that came in since then, or that nobody could judge before, rises from unknown where it is watch or worse.
 */
export const CLASS_DIRECTIONS = ['rise', 'lost', 'fall', 'new'] as const

/** A splice whose class on show differs from the one then; what lay between does not count. */
export const classChange = splice.extend({
  direction: z.enum(CLASS_DIRECTIONS),
  from: conditionClass,
  to: conditionClass,
  held: z.boolean(),
  /** Since when it has been shown so. */
  at: instant,
  /** The engine's sentence as it came to this class. */
  why: z.string(),
  /** import, undo, review, policy, engineer. */
  cause: z.string(),
  /** Of the import that did it. */
  import_id: id.nullable(),
  file_name: z.string().nullable(),
  policy_version: z.int(),
  /** Who lowered it, and why; null unless an engineer did. */
  decided: z.object({ engineer: z.string(), reason: z.string() }).nullable(),
})

/** A splice whose readings contradict each other now and did not then. */
export const conflictArisen = splice.extend({
  class: conditionClass, held: z.boolean(), at: instant,
  flags: z.array(z.object({ code: z.string(), text: z.string() })),
  file_name: z.string().nullable(),
})

/**
 * A splice whose advised current is another than then, by one per cent or more (less is what age alone does in some months), or whose figure came
 * or went while it was no better than watch.
 */
export const advisedChange = splice.extend({
  class: conditionClass, held: z.boolean(),
  /** Line current per phase; null: no figure was, or is, given. */
  from_a: z.number().nullable(), to_a: z.number().nullable(),
  /** Since when it has been so. */
  at: instant,
  /** import, undo, review, policy, engineer. */
  cause: z.string(),
  file_name: z.string().nullable(),
  /** The policy it was assessed by, where that is the cause: who stands behind it, and why it changed. */
  policy: z.object({ version: z.int(), set_by: z.string().nullable(), note: z.string().nullable() }).nullable(),
})

/** One step in the register of limits. */
export const limitStepTaken = splice.extend({
  limit_id: id,
  step: z.enum(['proposed', 'agreed', 'accepted', 'lifted']),
  at: instant,
  by: z.string(),
  /** Line current per phase. */
  line_a: z.number(),
  /** At the circuit's voltage; null where that is not known. */
  mva: z.number().nullable(),
  /** Why it was proposed, or lifted. */
  why: z.string().nullable(),
})

/** An urgent or critical class that was held and that a named engineer cleared. */
export const heldClassCleared = splice.extend({
  at: instant, engineer: z.string(), reason: z.string(), from: conditionClass, to: conditionClass, by: z.string(),
})

/** Readings taken after a repair that came in, or were placed, since then. */
export const repairEvidence = splice.extend({
  class: conditionClass, held: z.boolean(), at: instant, readings: z.int(), survey: z.string(),
  /** When the latest of them was taken. */
  taken_at: instant.nullable(),
})

/** What one import brought to one circuit, or took back from it. `circuit` is null for what has no place yet. */
export const readingsIn = z.object({
  import_id: id, file_name: z.string(), survey: z.string(), circuit_id: id.nullable(), circuit: z.string().nullable(),
  at: instant, by: z.string(),
  /** True: the import was undone since then, and the readings count for nothing. */
  undone: z.boolean(),
  readings: z.int(), placed: z.int(), review: z.int(), set_aside: z.int(),
})

/** What waits for a person now, by cause; `since` of them came in since then. */
export const placementsWaiting = z.object({ cause: reviewCause.nullable(), count: z.int(), since: z.int(), urgent: z.int() })

const part = <K extends ChangeKind, T extends z.ZodType>(kind: K, item: T) => z.object({
  kind: z.literal(kind),
  /** How many there are: of readings and of what waits the readings, else the items of all pages. */
  count: z.int(),
  items: z.array(item),
  next_cursor: z.string().nullable(),
})

/** Everything that changed between two moments, kind by kind. */
export const changes = z.object({
  since: instant,
  as_of: instant,
  /** Those asked for. */
  parts: z.array(z.discriminatedUnion('kind', [
    part('class', classChange).extend({ directions: z.object({ rise: z.int(), lost: z.int(), fall: z.int(), new: z.int() }) }), part('notice', urgentReading), part('conflict', conflictArisen),
    part('advised', advisedChange), part('limit', limitStepTaken),
    part('cleared', heldClassCleared), part('repair', repairEvidence), part('reading', readingsIn), part('waiting', placementsWaiting),
  ])),
})

/** Query of GET /api/v1/changes. A cursor continues one kind, so that one is to be named with it. */
export const changesQuery = z.object({
  since: z.iso.datetime({ offset: true }),
  circuit: circuitList.optional(),
  kind: z.preprocess((text) => (typeof text === 'string' ? text.split(',').map((word) => word.trim()).filter(Boolean) : text), z.array(z.enum(CHANGE_KINDS))).optional(),
  ...pageQuery.shape,
})

export type ChangesJson = z.infer<typeof changes>
export type ChangePart = ChangesJson['parts'][number]
export type PartOf<K extends ChangeKind> = Extract<ChangePart, { kind: K }>
export type ItemOf<K extends ChangeKind> = PartOf<K>['items'][number]
