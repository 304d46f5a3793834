import type { Assessment } from '@/lib/condition'
import { carriedK } from '@/lib/condition/loading/carried-k'
import type { CircuitJointsJson, LineJointJson, SectionOfLineJson } from '@/lib/contract/loading'
import { currentPolicy } from './policies'
import { onCircuit, type Scope } from './scope'
import { jointsOfLine, sectionsOfLine, structuresOfLine } from './sql/line-joints'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

type JointRow = Omit<LineJointJson, 'k' | 'upper_k' | 'basis'> & {
  found_ratio: number | null
  read: Pick<Assessment, 'class' | 'sides'> & { fusion: Assessment['fusion'] | null } | null
}

/** Every section within the scope, circuit by circuit: a utility has hundreds. */
export const listSections = (scope: Scope, db: Db = database()): Promise<SectionOfLineJson[]> => db.rows<SectionOfLineJson>(sectionsOfLine(scope, null))

/** The splices of a circuit with the ratios they are reckoned with at a load; undefined where there is no such circuit within the scope. */
export async function jointsOfCircuit(scope: Scope, circuitId: number, db: Db = database()): Promise<CircuitJointsJson | undefined> {
  const circuit = await db.row<{ name: string }>(sql`SELECT name FROM circuit WHERE id = ${circuitId} AND ${onCircuit(scope, 'id')}`)
  if (!circuit) return undefined
  const [sections, structures, joints, policy] = await Promise.all([
    db.rows<SectionOfLineJson>(sectionsOfLine(scope, circuitId)),
    db.rows<{ section_id: number; structure: string; line_distance_m: number }>(structuresOfLine(scope, circuitId)),
    db.rows<JointRow>(jointsOfLine(scope, circuitId)),
    currentPolicy(scope, db),
  ])
  return {
    circuit_id: circuitId, circuit: circuit.name, policy_version: policy.version,
    sections: sections.map((section) => ({
      ...section,
      structures: structures.flatMap(({ section_id: sectionId, ...of }) => (sectionId === section.id ? [of] : [])),
    })),
    joints: joints.map(({ found_ratio: foundRatio, read, ...joint }): LineJointJson => {
      const { k, upperK, basis } = carriedK(
        read && { ...read, fusion: read.fusion ?? undefined }, { held: joint.held, foundRatio: foundRatio ?? undefined }, policy,
      )
      return { ...joint, k, upper_k: upperK, basis }
    }),
  }
}
