import { buildNetwork, type KnownSplice, type Network, type NetworkSection, type NetworkSpan } from '@/lib/geo'
import type { Random } from './random'
import type { TrialLine } from './read-network'

export const HALF_GAP_M = 6
const PHASES = ['A', 'B', 'C']

export interface TrueSplice extends KnownSplice {
  lateralOffsetM: number
  line: number
}

export interface DoubleCircuits {
  network: Network
  /** Splices by line, then by circuit: [left, right]. */
  splices: [TrueSplice[], TrueSplice[]][]
  lines: TrialLine[]
}

/**
 * The longest lines as double circuits 12 m apart; all others stay as they are. Splices stand a drum length apart on every
 * phase: on each circuit by itself, or (`together`) both circuits strung from like drums, so that theirs lie side by side.
 */
export function makeDoubleCircuits(all: readonly TrialLine[], count: number, together: boolean, random: Random): DoubleCircuits {
  const ranked = [...all].sort((a, b) => b.section.lengthM - a.section.lengthM)
  const lines = ranked.slice(0, count)
  const sections: NetworkSection[] = []
  const spans: NetworkSpan[] = []
  const add = (line: TrialLine, circuit: string, lateralOffsetM: number | undefined): void => {
    const sectionId = sections.length + 1
    const { section } = line
    sections.push({
      sectionId,
      circuitId: sectionId,
      circuit,
      section: section.section,
      lengthM: section.lengthM,
      lonLat: section.lonLat,
      ...(lateralOffsetM !== undefined && { lateralOffsetM }),
    })
    for (const span of line.spans) {
      spans.push({
        spanId: spans.length + 1,
        sectionId,
        circuitId: sectionId,
        startM: span.startM,
        endM: span.endM,
        lonLat: span.lonLat,
        ...(span.structureBack && { structureBack: span.structureBack.structure.structure }),
        ...(span.structureAhead && { structureAhead: span.structureAhead.structure.structure }),
      })
    }
  }
  for (const line of lines) for (const side of [-1, 1]) add(line, `${line.section.circuit} ${side < 0 ? 1 : 2}`, side * HALF_GAP_M)
  for (const line of ranked.slice(count)) add(line, line.section.circuit, undefined)
  let id = 0
  const splices = lines.map((line, index): [TrueSplice[], TrueSplice[]] => {
    const make = (side: 0 | 1, lineDistanceM: number, phase: string): TrueSplice => {
      const sectionId = 2 * index + side + 1
      return {
        spliceId: ++id,
        circuitId: sectionId,
        sectionId,
        spanId: 0,
        lineDistanceM,
        phase,
        line: index,
        lateralOffsetM: side === 0 ? -HALF_GAP_M : HALF_GAP_M,
      }
    }
    const left = drums(line.section.lengthM, random).map(([atM, phase]) => make(0, atM, phase))
    const right = together
      ? left.map(({ lineDistanceM, phase }) =>
          make(1, Math.min(Math.max(lineDistanceM + 15 * random.normal(), 1), line.section.lengthM - 1), phase!),
        )
      : drums(line.section.lengthM, random).map(([atM, phase]) => make(1, atM, phase))
    return [left.sort(byDistance), right.sort(byDistance)]
  })
  return { network: buildNetwork({ sections, spans }), splices, lines }
}

const byDistance = (a: TrueSplice, b: TrueSplice): number => a.lineDistanceM - b.lineDistanceM

/** Drums of 1.2 to 2.6 km on each phase. */
function drums(lengthM: number, random: Random): [number, string][] {
  return PHASES.flatMap((phase) => {
    const places: [number, string][] = []
    for (let atM = random.between(100, 2_600); atM < lengthM - 20; atM += random.between(1_200, 2_600)) places.push([atM, phase])
    return places
  })
}
