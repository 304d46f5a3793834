import { nameKey } from '../network/labels'
import type { Network } from '../network/network'
import type { KnownSplice } from '../types'
import { wider, type Column } from './columns'

/**
 * Known splices in columns, ordered by section and line distance: a million of them take 32 MB beside their labels.
 * Phase, position and subconductor are numbers of `names`; 0 is not known.
 */
export interface SpliceTable {
  count: number
  /** First row of each section, and the count at the end. */
  sectionStart: Int32Array
  section: Int32Array
  lineDistanceM: Float64Array
  spliceId: Int32Array
  phase: Int32Array
  position: Int32Array
  subconductor: Int32Array
  label: readonly (string | undefined)[]
  names: Names
}

/** Gives every distinct text a number; the empty one is 0. */
export class Names {
  private readonly numbers = new Map<string, number>([['', 0]])
  private readonly texts: string[] = ['']

  number(text: string | undefined): number {
    if (text === undefined) return 0
    const known = this.numbers.get(text)
    if (known !== undefined) return known
    const key = nameKey(text)
    const number = this.numbers.get(key) ?? this.texts.length
    if (number === this.texts.length) this.texts.push(text.trim())
    this.numbers.set(key, number)
    this.numbers.set(text, number)
    return number
  }

  text(number: number): string | undefined {
    return this.texts[number] || undefined
  }
}

/** Columns while their length is not known. */
class LooseSplices {
  readonly names = new Names()
  readonly label: (string | undefined)[] = []
  section = new Int32Array(1024)
  lineDistanceM = new Float64Array(1024)
  spliceId = new Int32Array(1024)
  phase = new Int32Array(1024)
  position = new Int32Array(1024)
  subconductor = new Int32Array(1024)

  add(section: number, splice: KnownSplice): void {
    const at = this.label.length
    if (at === this.section.length) this.grow()
    this.section[at] = section
    this.lineDistanceM[at] = splice.lineDistanceM
    this.spliceId[at] = splice.spliceId
    this.phase[at] = this.names.number(splice.phase)
    this.position[at] = this.names.number(splice.position)
    this.subconductor[at] = this.names.number(splice.subconductor)
    this.label.push(splice.label)
  }

  private grow(): void {
    this.section = wider(this.section)
    this.lineDistanceM = wider(this.lineDistanceM)
    this.spliceId = wider(this.spliceId)
    this.phase = wider(this.phase)
    this.position = wider(this.position)
    this.subconductor = wider(this.subconductor)
  }
}

/** Takes any iterable, so that the store can stream rows; splices of sections without spans in the network are left out. */
export function buildSpliceTable(network: Network, splices: Iterable<KnownSplice>): SpliceTable {
  const loose = new LooseSplices()
  for (const splice of splices) {
    const section = network.sectionIndexOfId.get(splice.sectionId)
    if (section !== undefined && network.sectionSpan[section] !== network.sectionSpan[section + 1]) loose.add(section, splice)
  }
  const { section, lineDistanceM, spliceId, names, label } = loose
  const order = Uint32Array.from(label.keys())
  order.sort((a, b) => section[a]! - section[b]! || lineDistanceM[a]! - lineDistanceM[b]! || spliceId[a]! - spliceId[b]!)
  const table: SpliceTable = {
    count: order.length,
    names,
    sectionStart: new Int32Array(network.sections.length + 1),
    section: ordered(section, order, new Int32Array(order.length)),
    lineDistanceM: ordered(lineDistanceM, order, new Float64Array(order.length)),
    spliceId: ordered(spliceId, order, new Int32Array(order.length)),
    phase: ordered(loose.phase, order, new Int32Array(order.length)),
    position: ordered(loose.position, order, new Int32Array(order.length)),
    subconductor: ordered(loose.subconductor, order, new Int32Array(order.length)),
    label: Array.from(order, (row) => label[row]),
  }
  for (const own of table.section) table.sectionStart[own + 1]!++
  for (let i = 0; i < network.sections.length; i++) table.sectionStart[i + 1]! += table.sectionStart[i]!
  return table
}

function ordered<T extends Column>(loose: T, order: Uint32Array, column: T): T {
  for (let i = 0; i < order.length; i++) column[i] = loose[order[i]!]!
  return column
}

/** First row of a section at or after a line distance. */
export function firstSpliceFrom(table: SpliceTable, section: number, lineDistanceM: number): number {
  let low = table.sectionStart[section]!
  let high = table.sectionStart[section + 1]!
  while (low < high) {
    const middle = (low + high) >> 1
    if (table.lineDistanceM[middle]! < lineDistanceM) low = middle + 1
    else high = middle
  }
  return low
}

/** Rows by label, for the labels that readings name: a look at every splice only where one is named. */
export function rowsByLabel(table: SpliceTable, wanted: ReadonlySet<string>): Map<string, number[]> {
  const rows = new Map<string, number[]>()
  if (wanted.size === 0) return rows
  for (let row = 0; row < table.count; row++) {
    const label = table.label[row]
    if (label === undefined) continue
    const key = nameKey(label)
    if (!wanted.has(key)) continue
    const known = rows.get(key)
    if (known) known.push(row)
    else rows.set(key, [row])
  }
  return rows
}
