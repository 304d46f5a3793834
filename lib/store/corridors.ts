import type { Corridor } from '@/lib/contract/corridors'
import { corridorsOf, type StructureInCommon } from '@/lib/geo'
import { BadCursor, fromCursor, pageOf } from './cursor'
import type { Scope } from './scope'
import { circuitLengths } from './sql/corridors'
import { structuresInCommon } from './sql/strip'
import { database, type Db } from './transaction'

type Box = Corridor['bbox']
interface CircuitLine { id: number; name: string; length_m: number; bbox: Box }

/** Circuits within the scope that hang on the same structures, by name; one that hangs alone is in none. */
export async function listCorridors(scope: Scope, db: Db = database()): Promise<Corridor[]> {
  const [lines, common] = await Promise.all([db.rows<CircuitLine>(circuitLengths(scope)), db.rows<StructureInCommon>(structuresInCommon(scope))])
  const found = corridorsOf(new Map(lines.map((line) => [line.id, line.length_m])), common)
  const order = new Map(lines.map(({ id }, i) => [id, i]))
  const first = ({ circuits: [one] }: Corridor): number => order.get(one?.circuit_id ?? 0) ?? 0
  return found.map(({ circuits, throughout }): Corridor => {
    const of = lines.flatMap((line) => {
      const circuit = circuits.find(({ circuitId }) => circuitId === line.id)
      return circuit ? [{ line, circuit }] : []
    })
    return {
      name: of.map(({ line }) => line.name).join(' / '), throughout, bbox: of.map(({ line }) => line.bbox).reduce(around),
      circuits: of.map(({ line, circuit }) => ({ circuit_id: line.id, circuit: line.name, length_m: circuit.lengthM, together_m: circuit.togetherM })),
    }
  }).sort((a, b) => first(a) - first(b))
}

/** A page of them, all of them where no length is given. */
export async function corridorPage(scope: Scope, cursor?: string, limit?: number, db: Db = database()) {
  const asked = ['corridors']
  const after = fromCursor(cursor, ['int'], asked)
  const all = await listCorridors(scope, db)
  const from = after === null ? 0 : all.findIndex((one) => keyOf(one) === after[0]) + 1
  if (after !== null && from === 0) throw new BadCursor(cursor ?? '')
  return { ...pageOf(all.slice(from), limit ?? all.length, (one) => [keyOf(one)], asked), total: all.length }
}

/** Which corridor each circuit runs in, by its name. */
export async function corridorNames(scope: Scope, db: Db = database()): Promise<Map<number, string>> {
  return new Map((await listCorridors(scope, db)).flatMap(({ name, circuits }) => circuits.map(({ circuit_id: id }) => [id, name] as const)))
}

const keyOf = ({ circuits }: Corridor): number => Math.min(...circuits.map(({ circuit_id: id }) => id))

const around = (a: Box, b: Box): Box => [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.max(a[3], b[3])]
