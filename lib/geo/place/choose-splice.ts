import { nameKey } from '../network/labels'
import type { PlacementReason, PlacingOptions, PointToPlace } from '../types'
import { fault } from './declaration'
import type { PhasingTable } from './phasing-table'
import { firstSpliceFrom, type SpliceTable } from './splice-table'

/** The conductor a reading was taken on, as far as anybody knows. */
export interface Conductor {
  phase: string | undefined
  position: string | undefined
  subconductor: string | undefined
  /** The splice's name as the reading gives it. */
  label: string | undefined
}

export interface SpliceChoice {
  state: 'known' | 'new' | 'review'
  row?: number
  reasons: readonly PlacementReason[]
}

/** Said of very many readings: one object each. */
const NOTHING: readonly PlacementReason[] = []
const NEW = [fault('new-splice', {})]
const NEW_NOT_CONFIRMED = [fault('phase-not-confirmed', {}), ...NEW]
const NOT_CONFIRMED = [fault('phase-not-confirmed', {})]

type Match = 'same' | 'possible' | 'other'

/** Of two numbered names, 0 being not known. */
const agree = (a: number, b: number): Match => (a === 0 || b === 0 ? 'possible' : a === b ? 'same' : 'other')

/** Chooses among the known splices of one section near a line distance. */
export class SpliceChooser {
  constructor(private readonly splices: SpliceTable, private readonly phasing: PhasingTable, private readonly options: PlacingOptions) {}

  /** Metres along the line within which a splice is in reach of a reading of this accuracy. */
  reachM(sigmaM: number): number {
    return this.options.spliceReachM + 2 * sigmaM
  }

  /** The reading's conductor on this section: its phase, else what the phasing table says of its position. */
  conductorOf(point: PointToPlace, section: number, lineDistanceM: number): { conductor: Conductor; reasons: readonly PlacementReason[] } {
    const { phase, position, subconductor, spliceLabel: label } = point
    const conductor: Conductor = { phase, position, subconductor, label }
    const hangs = position === undefined ? undefined : this.phasing.phaseAt(section, lineDistanceM, position)
    if (position === undefined || hangs === undefined) return { conductor, reasons: NOTHING }
    if (phase === undefined) {
      return { conductor: { ...conductor, phase: hangs }, reasons: [fault('phase-from-position', { position, phase: hangs })] }
    }
    return nameKey(phase) !== nameKey(hangs)
      ? { conductor, reasons: [fault('declared-contradicts-position', { field: 'phase', value: phase, known: hangs, position })] }
      : { conductor, reasons: NOTHING }
  }

  /** Rows in reach that may be this conductor's, nearest first. */
  inReach(conductor: Conductor, section: number, lineDistanceM: number, withinM: number): { row: number; match: Match }[] {
    const found: { row: number; match: Match }[] = []
    const { names } = this.splices
    const phase = names.number(conductor.phase)
    const position = names.number(conductor.position)
    const numbers = { phase, position, subconductor: names.number(conductor.subconductor) }
    const end = this.splices.sectionStart[section + 1]!
    for (let row = firstSpliceFrom(this.splices, section, lineDistanceM - withinM); row < end; row++) {
      if (this.splices.lineDistanceM[row]! > lineDistanceM + withinM) break
      const match = this.match(numbers, row)
      if (match !== 'other') found.push({ row, match })
    }
    return found.sort((a, b) => this.alongM(a.row, lineDistanceM) - this.alongM(b.row, lineDistanceM) || a.row - b.row)
  }

  alongM(row: number, lineDistanceM: number): number {
    return Math.abs(this.splices.lineDistanceM[row]! - lineDistanceM)
  }

  /** The splice a reading belongs to: the one in reach on its conductor, else a new one, else a person decides. */
  choose(conductor: Conductor, section: number, lineDistanceM: number, withinM: number): SpliceChoice {
    const found = this.inReach(conductor, section, lineDistanceM, withinM)
    const label = conductor.label === undefined ? undefined : nameKey(conductor.label)
    const labelled = label === undefined ? [] : found.filter(({ row }) => this.splices.label[row] !== undefined)
    const named = labelled.find(({ row }) => nameKey(this.splices.label[row]!) === label)
    if (named) return { state: 'known', row: named.row, reasons: NOTHING }
    const same = found.filter(({ match }) => match === 'same')
    const open = same.length > 0 ? same : found
    const [only] = open
    if (!only) return this.newSplice(conductor)
    const [other] = labelled
    if (other) {
      const known = this.splices.label[other.row] ?? ''
      return { state: 'review', reasons: [fault('declared-unknown', { field: 'splice_id', value: conductor.label ?? '', known })] }
    }
    if (open.length > 1) return { state: 'review', reasons: [this.tooMany(conductor, open.map(({ row }) => row), withinM)] }
    return { state: 'known', row: only.row, reasons: same.length > 0 ? NOTHING : NOT_CONFIRMED }
  }

  private newSplice({ phase, position }: Conductor): SpliceChoice {
    if (phase === undefined && position === undefined) return { state: 'review', reasons: [fault('phase-missing', { count: 0 })] }
    return { state: 'new', reasons: phase === undefined ? NEW_NOT_CONFIRMED : NEW }
  }

  private tooMany({ phase }: Conductor, rows: readonly number[], withinM: number): PlacementReason {
    const phases = new Set(rows.map((row) => this.splices.phase[row]))
    return phase === undefined && phases.size > 1
      ? fault('phase-missing', { count: rows.length })
      : fault('two-splices-in-reach', { count: rows.length, reachM: withinM })
  }

  private match(conductor: { phase: number; position: number; subconductor: number }, row: number): Match {
    const { names, section, lineDistanceM } = this.splices
    if (agree(conductor.subconductor, this.splices.subconductor[row]!) === 'other') return 'other'
    const position = this.splices.position[row]!
    let phase = this.splices.phase[row]!
    if (phase === 0 && position !== 0) phase = names.number(this.phasing.phaseAt(section[row]!, lineDistanceM[row]!, names.text(position)!))
    const byPhase = agree(conductor.phase, phase)
    // Where the phase of one is not known, the position tells conductors apart as well.
    return byPhase === 'possible' ? agree(conductor.position, position) : byPhase
  }
}
