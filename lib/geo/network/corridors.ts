import { sharedStretches, type SharedStructure } from './beside'

/** A structure that carries two circuits, as the first of them has it; each pair is given both ways round. */
export interface StructureInCommon extends SharedStructure { circuitId: number; besideCircuitId: number }

export interface CircuitOfCorridor {
  circuitId: number
  /** All of its sections, m. */
  lengthM: number
  /** Of these, m that hang on the same structures as another circuit of the corridor; never more than `lengthM`. */
  togetherM: number
}

export interface Corridor {
  /** In the order of their numbers, two or more. */
  circuits: CircuitOfCorridor[]
  /** Each of them hangs with another all along; else they run together in part. */
  throughout: boolean
}

/** What circuits have in common at a substation, a few spans of a long line, makes no corridor of them. */
const LEAST_SHARE = 0.25
/** The first and the last span, from a gantry of its own, parts no circuits. */
const THROUGHOUT_SHARE = 0.95

/**
 * Circuits that run in one corridor: two do where a quarter or more of the shorter one hangs on structures that carry both, and so do
 * those that are joined through a third. Lines beside each other on structures of their own are not joined: how far apart lines stand is
 * on no record. @param lengthsM by circuit, m; one that is missing here joins nothing. @param common in any order
 */
export function corridorsOf(lengthsM: ReadonlyMap<number, number>, common: readonly StructureInCommon[]): Corridor[] {
  const pairs = groupsOf(common, ({ circuitId, besideCircuitId }) => `${circuitId} ${besideCircuitId}`)
    .flatMap((shared) => {
      const [first] = shared
      return first ? [{ circuitId: first.circuitId, besideCircuitId: first.besideCircuitId, stretches: sharedStretches(shared) }] : []
    })
  const corridorOf = new Map<number, Set<number>>()
  for (const { circuitId, besideCircuitId, stretches } of pairs) {
    const shorterM = Math.min(lengthsM.get(circuitId) ?? 0, lengthsM.get(besideCircuitId) ?? 0)
    if (shorterM <= 0 || coveredM(stretches) < LEAST_SHARE * shorterM) continue
    const joined = new Set([...(corridorOf.get(circuitId) ?? [circuitId]), ...(corridorOf.get(besideCircuitId) ?? [besideCircuitId])])
    for (const id of joined) corridorOf.set(id, joined)
  }
  return [...new Set(corridorOf.values())].map((ids) => {
    const circuits = [...ids].sort((a, b) => a - b).map((circuitId) => {
      const lengthM = lengthsM.get(circuitId) ?? 0
      const withOthers = pairs.filter((pair) => pair.circuitId === circuitId && ids.has(pair.besideCircuitId))
      return { circuitId, lengthM, togetherM: Math.min(lengthM, coveredM(withOthers.flatMap(({ stretches }) => stretches))) }
    })
    return { circuits, throughout: circuits.every(({ lengthM, togetherM }) => togetherM >= THROUGHOUT_SHARE * lengthM) }
  })
}

/** Metres of line that stretches cover, what several of them cover once. */
function coveredM(stretches: readonly { sectionId: number; fromM: number; toM: number }[]): number {
  let sumM = 0
  for (const ofSection of groupsOf(stretches, ({ sectionId }) => sectionId)) {
    let endM = -Infinity
    for (const { fromM, toM } of ofSection.sort((a, b) => a.fromM - b.fromM)) {
      sumM += Math.max(0, toM - Math.max(fromM, endM))
      endM = Math.max(endM, toM)
    }
  }
  return sumM
}

function groupsOf<T>(items: readonly T[], keyOf: (item: T) => string | number): T[][] {
  const groups = new Map<string | number, T[]>()
  for (const item of items) {
    const key = keyOf(item)
    const group = groups.get(key)
    if (group) group.push(item)
    else groups.set(key, [item])
  }
  return [...groups.values()]
}
