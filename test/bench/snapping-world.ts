import geographic from 'geographiclib-geodesic'
import { buildNetwork, type KnownSplice, type Network, type NetworkSection, type NetworkSpan, type PointToPlace } from '@/lib/geo'
import { seeded } from '../trial/random'

const { WGS84 } = geographic.Geodesic

export interface BenchWorld {
  network: Network
  /** Two vertices per span: lon, lat, lon, lat. */
  spans: Float64Array[]
  points: PointToPlace[]
  splices: KnownSplice[]
}

const CIRCUITS = 100
const SIGMA_M = 4
const PHASES = ['A', 'B', 'C']

/** Winding lines over a few degrees in the middle latitudes, splices on them, and readings within a few metres of both. */
export function makeWorld(spanCount: number, readingCount: number): BenchWorld {
  const random = seeded(7)
  const sections: NetworkSection[] = []
  const spans: NetworkSpan[] = []
  for (let circuit = 1; circuit <= CIRCUITS; circuit++) {
    let [lon, lat] = [random.between(-114, -108), random.between(45, 48)]
    const heading = random.between(0, 360)
    let atM = 0
    sections.push({
      sectionId: circuit,
      circuitId: circuit,
      circuit: `C${circuit}`,
      section: 'main',
      lengthM: 0,
      lonLat: new Float64Array(),
      lateralOffsetM: 0,
    })
    for (let k = 0; k < spanCount / CIRCUITS; k++) {
      const lengthM = random.between(200, 450)
      const end = WGS84.Direct(lat, lon, heading + random.between(-15, 15), lengthM)
      spans.push({
        spanId: spans.length + 1,
        sectionId: circuit,
        circuitId: circuit,
        startM: atM,
        endM: atM + lengthM,
        structureBack: `${k}`,
        structureAhead: `${k + 1}`,
        lonLat: Float64Array.of(lon, lat, end.lon2!, end.lat2!),
      })
      atM += lengthM
      ;[lon, lat] = [end.lon2!, end.lat2!]
    }
  }
  const splices: KnownSplice[] = []
  const points: PointToPlace[] = []
  for (let i = 0; i < readingCount; i++) {
    const index = Math.floor((i * spans.length) / readingCount)
    const span = spans[index]!
    const share = random.next()
    const phase = PHASES[i % 3]!
    if (i % 4 === 0) {
      splices.push({
        spliceId: splices.length + 1,
        circuitId: span.circuitId,
        sectionId: span.sectionId,
        spanId: span.spanId,
        lineDistanceM: span.startM + share * (span.endM - span.startM),
        phase,
      })
    }
    const [lon1, lat1, lon2, lat2] = span.lonLat as unknown as [number, number, number, number]
    points.push({
      index: i,
      lon: lon1 + share * (lon2 - lon1) + (SIGMA_M * random.normal()) / 76_000,
      lat: lat1 + share * (lat2 - lat1) + (SIGMA_M * random.normal()) / 111_000,
      sigmaM: SIGMA_M,
      positionOf: 'target',
      platform: 'uncrewed',
      takenAtMs: Date.UTC(2024, 5, 1) + i * 8_000,
      survey: 'bench',
      crew: 'one',
      instrument: 'one',
      phase,
    })
  }
  return { network: buildNetwork({ sections, spans }), spans: spans.map((span) => span.lonLat), points, splices }
}
