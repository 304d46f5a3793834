import { CLASS_COUNT, type SpliceColumns } from '@/lib/tiles/splices/splice-columns'
import type { NetworkLines } from '@/lib/store/tile-sources'

const CIRCUITS = 2000
const PHASES = ['A', 'B', 'C']
/** Cumulative shares of classes: mostly sound, one in a hundred critical. */
const SHARES = [0.6, 0.78, 0.9, 0.93, 0.94, 1]

function numbers(seed: number): () => number {
  let state = seed
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}

export interface Million {
  columns: SpliceColumns
  network: NetworkLines
}

/** Splices in threes, a phase each, along crooked lines over half a continent; the lines themselves as circuits. */
export function million(count: number): Million {
  const random = numbers(7)
  const perCircuit = Math.ceil(count / CIRCUITS)
  const columns: SpliceColumns = {
    id: Int32Array.from({ length: count }, (_, i) => i + 1),
    lonDeg: new Float64Array(count),
    latDeg: new Float64Array(count),
    classNo: new Uint8Array(count),
    renewByDay: new Int32Array(count),
    axisDeg: new Uint8Array(count),
    sideNo: new Uint32Array(),
    sides: [],
    groupNo: new Uint32Array(count),
    groups: Array.from({ length: CIRCUITS * 3 }, (_, g) => {
      const circuit = Math.floor(g / 3)
      return { circuitId: circuit + 1, voltageKv: [69, 115, 230, 345][circuit % 4] ?? 69, phase: PHASES[g % 3] ?? null }
    }),
    names: Buffer.from(Array.from({ length: count }, (_, i) => `${Math.floor(i / 3) % 400}-${PHASES[i % 3] ?? ''}-${i % 90}`).join('\0')),
  }
  const network: NetworkLines = { circuits: [], spans: [], structures: [], crossings: [] }
  for (let circuit = 0, i = 0; circuit < CIRCUITS; circuit++) {
    let [lon, lat, heading] = [-122 + 50 * random(), 30 + 18 * random(), 6.28 * random()]
    const line: number[] = [lon, lat]
    for (let k = 0; k < perCircuit && i < count; k++, i++) {
      if (k % 3 === 0) {
        heading += (random() - 0.5) * 0.3
        lon += Math.cos(heading) * 0.01
        lat += Math.sin(heading) * 0.007
        line.push(lon, lat)
      }
      columns.lonDeg[i] = lon
      columns.latDeg[i] = lat
      const roll = random()
      columns.classNo[i] = Math.min(
        CLASS_COUNT - 1,
        SHARES.findIndex((s) => roll < s),
      )
      columns.groupNo[i] = circuit * 3 + (k % 3)
    }
    network.circuits.push({ id: circuit + 1, name: `C${circuit + 1}`, voltageKv: [69, 115, 230, 345][circuit % 4] ?? 69 })
    network.spans.push({
      id: circuit + 1,
      sectionId: circuit + 1,
      circuitId: circuit + 1,
      ord: 0,
      structureBack: null,
      structureAhead: null,
      startM: 0,
      endM: 1,
      lateralOffsetM: null,
      lonLat: line,
    })
  }
  return { columns, network }
}

/** The same splices gathered on one corner of the map, as a utility of one state would have them. */
export function inOneState({ columns }: Million): SpliceColumns {
  return {
    ...columns,
    lonDeg: columns.lonDeg.map((lon) => -114.5 + (lon + 97) * 0.06),
    latDeg: columns.latDeg.map((lat) => 47.5 + (lat - 39) * 0.09),
  }
}
