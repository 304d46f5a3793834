import type { Assessment } from '@/lib/condition'
import { carriedK, type Read } from '@/lib/condition/loading/carried-k'
import { withUnreadBound } from '@/lib/condition/loading/unread-bound'
import type { CurrentLimitJson } from '@/lib/contract/limits'
import type { CircuitJointsJson, LineJointJson, SectionOfLineJson } from '@/lib/contract/loading'
import { openLimits } from './limits'
import { currentPolicy } from './policies'
import { onCircuit, type Scope } from './scope'
import { jointsOfLine, sectionsOfLine, structuresOfLine } from './sql/line-joints'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

type Response = NonNullable<LineJointJson['response']>

type JointRow = Omit<LineJointJson, 'k' | 'upper_k' | 'basis' | 'figure' | 'limit' | 'response'> & {
  response: Omit<Response, 'next_reading_due_at'> & { next_reading_due_ms: number | null } | null
  found_ratio: number | null
  found_at: string | null
  read: Pick<Assessment, 'class' | 'sides'> & { fusion: Assessment['fusion'] | null; raised_by: Assessment['raisedBy'] | null; visits: Assessment['visits'] | null; limit_k: number | null } | null
}

/** Every section within the scope, circuit by circuit: a utility has hundreds. */
export const listSections = (scope: Scope, db: Db = database()): Promise<SectionOfLineJson[]> => db.rows<SectionOfLineJson>(sectionsOfLine(scope, null))

/** The splices of a circuit with the ratios they are reckoned with at a load; undefined where there is no such circuit within the scope. */
export async function jointsOfCircuit(scope: Scope, circuitId: number, db: Db = database()): Promise<CircuitJointsJson | undefined> {
  const circuit = await db.row<{ name: string }>(sql`SELECT name FROM circuit WHERE id = ${circuitId} AND ${onCircuit(scope, 'id')}`)
  if (!circuit) return undefined
  const [sections, structures, joints, policy, register] = await Promise.all([
    db.rows<SectionOfLineJson>(sectionsOfLine(scope, circuitId)),
    db.rows<{ section_id: number; structure: string; line_distance_m: number }>(structuresOfLine(scope, circuitId)),
    db.rows<JointRow>(jointsOfLine(scope, circuitId)),
    currentPolicy(scope, db),
    openLimits(scope, circuitId, Date.now(), db),
  ])
  const limitOf = new Map(register.map((limit) => [limit.splice_id, limit]))
  return {
    circuit_id: circuitId, circuit: circuit.name, policy_version: policy.version,
    sections: sections.map((section) => ({
      ...section,
      structures: structures.flatMap(({ section_id: sectionId, ...of }) => (sectionId === section.id ? [of] : [])),
    })),
    joints: withUnreadBound(joints.map(({ found_ratio: foundRatio, found_at: foundAt, read, ...joint }) => {
      const shown = { held: joint.held, foundRatio: foundRatio ?? undefined, foundAtMs: foundAt === null ? undefined : Date.parse(foundAt) }
      return { joint, ...carriedK(readOf(read), shown, Date.now(), policy) }
    })).map(({ joint: { response, ...joint }, k, upperK, basis, figure }): LineJointJson => (
      { ...joint, k, upper_k: upperK, basis, figure, limit: standingLimit(limitOf.get(joint.id)), response: responseOf(response) })),
  }
}

function standingLimit(limit: CurrentLimitJson | undefined): LineJointJson['limit'] {
  return limit === undefined || limit.standing === 'lifted' ? null : { line_a: limit.line_a, mva: limit.mva, standing: limit.standing }
}

function responseOf(row: JointRow['response']): Response | null {
  if (row === null) return null
  const { next_reading_due_ms: dueMs, ...response } = row
  return { ...response, next_reading_due_at: dueMs === null ? null : new Date(dueMs).toISOString() }
}

const readOf = (read: JointRow['read']): Read | null =>
  read && { class: read.class, sides: read.sides, fusion: read.fusion ?? undefined, raisedBy: read.raised_by ?? undefined, visits: read.visits ?? undefined, limitK: read.limit_k ?? undefined }
