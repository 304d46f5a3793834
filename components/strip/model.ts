import { findingOf, lookAt, type Finding } from '@/components/circuit/coverage'
import type { PhaseLetters } from '@/components/splice/position'
import { spanText } from '@/components/splice/position'
import type { CircuitStrip, StripBeside, StripSplice } from '@/lib/contract/strip'
import { layOut, onAxis, wholeOf, type LaidSection, type Stretch } from './axis'
import { laneOf, lanesOf } from './marks'
import { coursesOf, type LinePoint } from './place'

export interface AxisSplice extends StripSplice { axisM: number }

/** A run of neighbouring spans of which one phase is known alike. */
export interface SurveyRun extends Stretch {
  finding: Finding
  /** By a flight or patrol that wrote down its finds alone. */
  exceptionsOnly: boolean
  from: string
  to: string
}

export interface Lane {
  key: string
  /** Null: of the straightened circuit; else the name of the one that hangs beside it. */
  circuit: string | null
  splices: AxisSplice[]
  /** Where those stand that the filter leaves out, m on the axis. */
  leftOutM: number[]
  runs: SurveyRun[]
}

/** Another circuit on the same structures, its splices where the straightened one is abreast of them. */
export interface Beside { circuitId: number; circuit: string; splices: (AxisSplice & { abreastM: number })[]; stretches: Stretch[] }

export interface StripModel {
  laid: LaidSection[]
  whole: Stretch
  courses: LinePoint[][]
  structures: { m: number; name: string }[]
  crossings: { m: number; name: string }[]
  lanes: Lane[]
  /** By line distance, all lanes together: the order in which keys step. */
  splices: AxisSplice[]
  beside: Beside[]
}

/** Everything that does not change with the stretch in view, reckoned once. */
export function modelOf(strip: CircuitStrip, nowMs: number): StripModel {
  const laid = layOut(strip.sections)
  const sections = new Map(laid.map((section) => [section.id, section]))
  const splices = strip.splices.flatMap((splice) => {
    const section = sections.get(splice.section_id)
    return section ? [{ ...splice, axisM: onAxis(section, splice.line_distance_m) }] : []
  }).sort((a, b) => a.axisM - b.axisM || a.id - b.id)
  const beside = strip.beside.map((other) => besideOn(sections, other))
  const main = laid[0]
  return {
    laid, whole: wholeOf(laid), courses: coursesOf(strip, laid), splices, beside,
    structures: strip.sections.flatMap((section, i) => section.structures.flatMap(({ structure, line_distance_m: atM }) => {
      const on = laid[i]
      return on ? [{ m: onAxis(on, atM), name: structure }] : []
    })),
    crossings: main ? strip.crossings.map(({ kind, name, line_distance_m: atM }) => ({ m: onAxis(main, atM), name: name ?? kind })) : [],
    lanes: [
      ...lanesFor(splices, null, (key) => (key.startsWith('phase:') ? surveyRuns(strip.spans, sections, key.slice('phase:'.length), nowMs) : [])),
      ...beside.flatMap((other) => lanesFor(other.splices, other.circuit, () => [])),
    ],
  }
}

const lanesFor = (splices: AxisSplice[], circuit: string | null, runsOf: (key: string) => SurveyRun[]): Lane[] =>
  lanesOf(splices).map((key) => ({ key, circuit, splices: splices.filter((splice) => laneOf(splice) === key), leftOutM: [], runs: runsOf(key) }))

function besideOn(sections: ReadonlyMap<number, LaidSection>, { circuit_id: circuitId, circuit, splices, stretches }: StripBeside): Beside {
  return {
    circuitId, circuit,
    splices: splices.flatMap((splice) => {
      const section = sections.get(splice.abreast.section_id)
      return section ? [{ ...splice, axisM: onAxis(section, splice.abreast.line_distance_m), abreastM: splice.abreast.line_distance_m }] : []
    }).sort((a, b) => a.axisM - b.axisM || a.id - b.id),
    stretches: stretches.flatMap(({ section_id: id, from_m: fromM, to_m: toM }) => {
      const section = sections.get(id)
      return section ? [{ fromM: onAxis(section, fromM), toM: onAxis(section, toM) }] : []
    }),
  }
}

function surveyRuns(spans: CircuitStrip['spans'], sections: ReadonlyMap<number, LaidSection>, phase: string, nowMs: number): SurveyRun[] {
  const runs: SurveyRun[] = []
  for (const span of spans) {
    const section = sections.get(span.section_id)
    if (!section) continue
    const look = lookAt(span, phase)
    const finding = findingOf(look, nowMs)
    const exceptionsOnly = look?.exceptions_only ?? false
    const [fromM, toM] = [onAxis(section, span.start_m), onAxis(section, span.end_m)]
    const before = runs.at(-1)
    const name = spanText(span.structure_back, span.structure_ahead) ?? 'unnamed span'
    if (before && before.finding === finding && before.exceptionsOnly === exceptionsOnly && Math.abs(before.toM - fromM) < 1) Object.assign(before, { toM, to: name })
    else runs.push({ fromM, toM, finding, exceptionsOnly, from: name, to: name })
  }
  return runs
}

/** A lane's name in one or two short lines: a position whose phase nobody confirmed says so, and a circuit beside this one is named. */
export function laneName({ key, circuit }: Pick<Lane, 'key' | 'circuit'>, letters: PhaseLetters, spell: (word: string) => string): [string, string?] {
  const [kind, name = ''] = key.split(':')
  if (circuit !== null) return [`${circuit} ${kind === 'phase' ? (letters[name] ?? name) : kind === 'position' ? spell(name) : '?'}`]
  if (kind === 'phase') return [`Phase ${letters[name] ?? name}`]
  const position = spell(name)
  return [kind === 'position' ? position.charAt(0).toUpperCase() + position.slice(1) : 'Phase', kind === 'position' ? 'phase not confirmed' : 'not confirmed']
}

/** The splices of the same circuit as this one, in line order. */
export const ofSameCircuit = ({ splices, beside }: Pick<StripModel, 'splices' | 'beside'>, id: number): AxisSplice[] =>
  beside.find((other) => other.splices.some((splice) => splice.id === id))?.splices ?? splices

/** Which splice a key leads to by line distance; null at the ends. */
export function neighbour(splices: readonly AxisSplice[], id: number, step: 1 | -1): AxisSplice | null {
  const at = splices.findIndex((splice) => splice.id === id)
  return at < 0 ? null : (splices[at + step] ?? null)
}
