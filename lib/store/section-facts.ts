import type { SpliceFacts } from '@/lib/condition'
import { nameKey } from '@/lib/geo'
import { onCircuit, type Scope } from './scope'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

interface SectionFactsRow {
  id: number; circuit: string; name: string; conductor_code: string | null; subconductors: number; rating_a: number | null; max_operating_c: number | null
  elevation_m: number | null
}

/** What is known of a fitting by where it may be, before anybody knows which one it is. */
export interface SectionFacts {
  ofSection(sectionId: number): SpliceFacts | undefined
  /** Of the sections that a row names; all of the circuit where it names none. */
  named(circuit: string, section: string | null): SpliceFacts[]
}

export async function loadSectionFacts(scope: Scope, db: Db = database()): Promise<SectionFacts> {
  const rows = await db.rows<SectionFactsRow>(sql`
    SELECT sec.id, c.name AS circuit, sec.name, sec.conductor_code, sec.subconductors, sec.rating_a, sec.max_operating_c, sec.elevation_m
    FROM section sec JOIN circuit c ON c.id = sec.circuit_id WHERE ${onCircuit(scope, 'sec.circuit_id')} ORDER BY sec.id`)
  const byId = new Map(rows.map((row) => [row.id, factsOf(row)]))
  const byCircuit = new Map<string, SectionFactsRow[]>()
  for (const row of rows) {
    const own = byCircuit.get(nameKey(row.circuit))
    if (own) own.push(row)
    else byCircuit.set(nameKey(row.circuit), [row])
  }
  return {
    ofSection: (id) => byId.get(id),
    named: (circuit, section) => {
      const own = byCircuit.get(nameKey(circuit)) ?? []
      const meant = section === null ? own : own.filter((row) => nameKey(row.name) === nameKey(section))
      return meant.map(factsOf)
    },
  }
}

const factsOf = (row: SectionFactsRow): SpliceFacts => ({
  kind: 'other', conductorCode: row.conductor_code ?? undefined, subconductors: row.subconductors, ratingA: row.rating_a ?? undefined,
  maxOperatingC: row.max_operating_c ?? undefined, elevationM: row.elevation_m ?? undefined,
})
