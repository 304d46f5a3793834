import { policySchema, type Policy } from '@/lib/condition/policy'
import type { PolicyVersionJson } from '@/lib/contract/settings'
import { onEverything, type Scope } from './scope'
import { iso } from './sql/iso'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

const COLUMNS = sql`version, values, procedure_no, note, set_by, ${iso('created_at')} AS created_at, actor`

/** The policy in force. The first one, of the defaults, is written when the store is first asked. */
export async function currentPolicy(_scope: Scope, db: Db = database()): Promise<Policy> {
  const { version, values } = await currentPolicyJson(_scope, db)
  return { ...policySchema.parse(values), version }
}

/** The policy of a version; undefined where there was none. */
export async function policyOfVersion(_scope: Scope, version: number, db: Db = database()): Promise<Policy | undefined> {
  const row = await db.row<{ values: unknown }>(sql`SELECT values FROM policy WHERE version = ${version}`)
  return row && { ...policySchema.parse(row.values), version }
}

/** The policy in force with who set it and when. */
export async function currentPolicyJson(scope: Scope, db: Db = database()): Promise<PolicyVersionJson> {
  const latest = () => db.row<PolicyVersionJson>(sql`SELECT ${COLUMNS} FROM policy ORDER BY version DESC LIMIT 1`)
  const found = await latest()
  if (found) return found
  await db.run(sql`
    INSERT INTO policy (version, values, note, actor) VALUES (1, ${JSON.stringify(policySchema.parse({}))}::jsonb, 'Defaults', 'system')
    ON CONFLICT (version) DO NOTHING`)
  await db.run(sql`SELECT setval('policy_version_seq', greatest((SELECT max(version) FROM policy), 1))`)
  const written = await latest()
  if (!written) throw new Error(`The policy could not be written in the scope ${scope.key}.`)
  return written
}

/** Every version, newest first. */
export async function policyHistory(_scope: Scope, db: Db = database()): Promise<PolicyVersionJson[]> {
  await currentPolicyJson(_scope, db)
  return db.rows<PolicyVersionJson>(sql`SELECT ${COLUMNS} FROM policy ORDER BY version DESC`)
}

export interface NewPolicy { values: unknown; procedureNo: string | null; note: string | null; setBy: string | null; actor: string }

/** A new version, in force from now on. Undefined outside a scope of everything. */
export async function insertPolicy(scope: Scope, policy: NewPolicy, db: Db): Promise<PolicyVersionJson | undefined> {
  return db.row<PolicyVersionJson>(sql`
    INSERT INTO policy (values, procedure_no, note, set_by, actor)
    SELECT ${JSON.stringify(policy.values)}::jsonb, ${policy.procedureNo}::text, ${policy.note}::text, ${policy.setBy}::text, ${policy.actor}::text WHERE ${onEverything(scope)}
    RETURNING ${COLUMNS}`)
}
