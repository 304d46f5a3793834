import { MAIN_SECTION } from '../assemble/line-feature'
import { nameKey } from '../network/labels'
import type { Network } from '../network/network'
import { sectionEndM } from '../network/on-section'
import type { PlacementReason, PointToPlace } from '../types'
import { fault, MOST_OFFERED, MOST_PLACES, type Declaration, type DeclaredPlace, type SectionSet } from './declaration'
import { structurePlaces } from './declared-structures'
import type { SpliceTable } from './splice-table'

/** Reads declared evidence against the network and the splice list; circuit and section alone are read once. */
export class DeclarationReader {
  private readonly byCircuit = new Map<string, Declaration | undefined>()

  constructor(
    private readonly network: Network,
    private readonly splices: SpliceTable,
    private readonly rowsOfLabel: ReadonlyMap<string, readonly number[]>,
    private readonly reachM: (point: PointToPlace) => number,
  ) {}

  /**
   * Undefined: the reading declares nothing that tells its place. Names that many lines have are looked for on the
   * sections near its position first.
   */
  read(point: PointToPlace, isPositioned: boolean, near?: SectionSet): Declaration | undefined {
    const circuit = this.readCircuit(point)
    if (circuit?.fault) return isPositioned ? circuit : this.onlySplice(point, circuit) ?? this.withoutCircuit(point, circuit)
    const side = sideOf(point)
    let declaration = circuit
    if (point.structureBack !== undefined || point.structureAhead !== undefined) {
      declaration = this.readStructures(point, circuit?.places.map((place) => place.section), side, near)
      if (declaration.fault) return declaration
    }
    if (point.spliceLabel !== undefined) declaration = this.withSplice(point, point.spliceLabel, declaration, isPositioned, near)
    if (declaration) return declaration
    return side === undefined ? undefined : { by: 'side', places: [], side }
  }

  /** A splice that there is once leads, and the circuit that nobody knows contradicts it: a person decides. Undefined where none or several have the label. */
  private onlySplice({ spliceLabel, circuit }: PointToPlace, { fault: unknown }: Declaration): Declaration | undefined {
    const rows = spliceLabel === undefined ? [] : this.rowsOfLabel.get(nameKey(spliceLabel)) ?? []
    if (rows.length !== 1 || unknown?.values?.field !== 'circuit') return undefined
    return {
      by: 'splice', places: this.rowPlaces(rows),
      fault: fault('declared-contradicts-declared', { field: 'circuit', value: circuit ?? '', splice: spliceLabel ?? '', known: this.circuitOf(rows[0]!), unknown: 1 }),
    }
  }

  private circuitOf(row: number): string {
    return this.network.sections[this.splices.section[row]!]!.circuit
  }

  /**
   * A circuit that nobody knows places nothing. Without a position to look from, the structures that the reading names are offered on whatever
   * circuit has them, for a person to choose from.
   */
  private withoutCircuit(point: PointToPlace, unknown: Declaration): Declaration {
    if (point.structureBack === undefined && point.structureAhead === undefined) return unknown
    const places = structurePlaces(this.network, { ...point, circuit: undefined, section: undefined }, undefined)
    return Array.isArray(places) ? { by: 'structures', places: places.slice(0, MOST_OFFERED), fault: unknown.fault } : unknown
  }

  private readStructures(point: PointToPlace, own: SectionSet | undefined, side: -1 | 1 | undefined, near?: SectionSet): Declaration {
    let places = structurePlaces(this.network, point, own ?? near)
    if (!own && near && !Array.isArray(places)) places = structurePlaces(this.network, point, undefined)
    if (!Array.isArray(places)) return { by: 'structures', places: [], fault: places }
    return { by: 'structures', places: own ? places : this.onSide(places, side) }
  }

  private readCircuit({ circuit, section }: PointToPlace): Declaration | undefined {
    // Every circuit has a main section: alone that name tells nothing.
    if (circuit === undefined && (section === undefined || nameKey(section) === MAIN_SECTION)) return undefined
    const key = `${circuit ?? ''}\n${section ?? ''}`
    if (this.byCircuit.has(key)) return this.byCircuit.get(key)
    const declaration = this.circuitPlaces(circuit, section)
    this.byCircuit.set(key, declaration)
    return declaration
  }

  private circuitPlaces(circuit: string | undefined, section: string | undefined): Declaration | undefined {
    const all = circuit === undefined ? [...this.network.sections.keys()] : this.network.circuits.get(nameKey(circuit)) ?? []
    if (all.length === 0) return { by: 'circuit', places: [], fault: fault('declared-unknown', { field: 'circuit', value: circuit ?? '' }) }
    const wanted = section === undefined ? undefined : nameKey(section)
    const sections = all.filter((index) => wanted === undefined || nameKey(this.network.sections[index]!.section) === wanted)
    if (sections.length === 0) {
      const values = { field: 'section', value: section ?? '', ...(circuit !== undefined && { circuit }) }
      return { by: 'circuit', places: [], fault: fault('declared-unknown', values) }
    }
    if (circuit === undefined && sections.length > MOST_PLACES) return undefined
    return { by: 'circuit', places: sections.map((index) => ({ section: index, fromM: 0, toM: sectionEndM(this.network, index) })) }
  }

  /** Of circuits that share the structures, those on the named side; all where no offset tells sides apart. */
  private onSide(places: readonly DeclaredPlace[], side: -1 | 1 | undefined): readonly DeclaredPlace[] {
    const { sections } = this.network
    const own = places.filter((place) => side !== undefined && Math.sign(sections[place.section]!.lateralOffsetM ?? 0) === side)
    return own.length > 0 ? own : places
  }

  /** A label that nobody knows names a splice yet to be found: the rest of the evidence places it. */
  private withSplice(point: PointToPlace, label: string, rest: Declaration | undefined, isPositioned: boolean, near?: SectionSet): Declaration | undefined {
    const all = this.rowsOfLabel.get(nameKey(label)) ?? []
    if (all.length === 0) return rest
    const close = near && all.length > 1 ? all.filter((row) => near.includes(this.splices.section[row]!)) : []
    const rows = close.length > 0 ? close : all
    const marginM = this.reachM(point)
    const agreeing = rest === undefined ? rows : rows.filter((row) => rest.places.some((place) => this.holds(place, row, marginM)))
    if (agreeing.length === 0) return { by: 'splice', places: this.rowPlaces(rows), fault: isPositioned ? this.otherPlace(label, rest) : this.otherNames(point, rows, rest) }
    const declaration: Declaration = { by: 'splice', places: this.rowPlaces(agreeing) }
    const other = agreeing.length === 1 ? this.otherConductor(point, agreeing[0]!) : undefined
    return other ? { ...declaration, fault: other } : declaration
  }

  private holds({ section, fromM, toM }: DeclaredPlace, row: number, marginM: number): boolean {
    const atM = this.splices.lineDistanceM[row]!
    return this.splices.section[row] === section && atM >= fromM - marginM && atM <= toM + marginM
  }

  private rowPlaces(rows: readonly number[]): DeclaredPlace[] {
    return rows.slice(0, MOST_PLACES).map((row) => {
      const atM = this.splices.lineDistanceM[row]!
      return { section: this.splices.section[row]!, fromM: atM, toM: atM, spliceRow: row }
    })
  }

  /** Without a position nothing but the names tells the place, and they do not agree. */
  private otherNames({ circuit, structureBack, structureAhead, spliceLabel = '' }: PointToPlace, rows: readonly number[], rest: Declaration | undefined): PlacementReason {
    const known = [...new Set(rows.map((row) => this.circuitOf(row)))].join(', ')
    const isOther = circuit !== undefined && !rows.some((row) => nameKey(this.circuitOf(row)) === nameKey(circuit))
    const structures = [structureBack, structureAhead].filter((one) => one !== undefined).join('-')
    const value = isOther ? `circuit ${circuit}` : rest?.by === 'structures' ? `STR ${structures}` : 'a section of it that it does not stand on'
    return fault('declared-contradicts-declared', { field: 'splice_id', value, splice: spliceLabel, known })
  }

  private otherPlace(label: string, rest: Declaration | undefined): PlacementReason {
    return fault('declared-contradicts-position', { field: 'splice_id', value: label, against: rest?.by ?? '' })
  }

  private otherConductor({ phase, subconductor, spliceLabel = '' }: PointToPlace, row: number): PlacementReason | undefined {
    const { names } = this.splices
    const splice = spliceLabel
    const knownPhase = names.text(this.splices.phase[row]!)
    const knownSubconductor = names.text(this.splices.subconductor[row]!)
    if (phase !== undefined && knownPhase !== undefined && nameKey(phase) !== nameKey(knownPhase)) {
      return fault('declared-contradicts-position', { field: 'phase', value: phase, known: knownPhase, splice })
    }
    if (subconductor !== undefined && knownSubconductor !== undefined && nameKey(subconductor) !== nameKey(knownSubconductor)) {
      return fault('declared-contradicts-position', { field: 'subconductor', value: subconductor, known: knownSubconductor, splice })
    }
    return undefined
  }
}

/** Sides of a pole line that say left or right looking ahead; other words (north, upper) are kept for people. */
function sideOf({ circuitSide }: PointToPlace): -1 | 1 | undefined {
  const word = circuitSide === undefined ? '' : nameKey(circuitSide)
  if (/^l(eft)?( circuit)?$/.test(word)) return -1
  return /^r(ight)?( circuit)?$/.test(word) ? 1 : undefined
}
