import { nameKey } from '../network/labels'
import type { Network } from '../network/network'
import type { KnownSplice } from '../types'

/**
 * Known splices in columns, ordered by section and line distance: a million of them take about 30 MB beside their labels.
 * Phase, position and subconductor are numbers of `names`; 0 is not known.
 */
export interface SpliceTable {
  count: number
  /** First row of each section, and the count at the end. */
  sectionStart: Int32Array
  section: Int32Array
  lineDistanceM: Float64Array
  spliceId: Int32Array
  phase: Uint16Array
  position: Uint16Array
  subconductor: Uint16Array
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
interface Loose {
  section: number[]
  lineDistanceM: number[]
  spliceId: number[]
  /** Phase, position and subconductor of each. */
  codes: number[]
  label: (string | undefined)[]
}

/** Takes any iterable, so that the store can stream rows; splices of sections without spans in the network are left out. */
export function buildSpliceTable(network: Network, splices: Iterable<KnownSplice>): SpliceTable {
  const names = new Names()
  const loose: Loose = { section: [], lineDistanceM: [], spliceId: [], codes: [], label: [] }
  let sorted = true
  for (const splice of splices) {
    const section = network.sectionIndexOfId.get(splice.sectionId)
    if (section === undefined || network.sectionSpan[section] === network.sectionSpan[section + 1]) continue
    const last = loose.section.length - 1
    const before = last < 0 ? -1 : loose.section[last]! - section || loose.lineDistanceM[last]! - splice.lineDistanceM
    if (before > 0) sorted = false
    loose.section.push(section)
    loose.lineDistanceM.push(splice.lineDistanceM)
    loose.spliceId.push(splice.spliceId)
    loose.codes.push(names.number(splice.phase), names.number(splice.position), names.number(splice.subconductor))
    loose.label.push(splice.label)
  }
  const count = loose.section.length
  const order = Uint32Array.from({ length: count }, (_, i) => i)
  if (!sorted) {
    const { section, lineDistanceM, spliceId } = loose
    order.sort((a, b) => section[a]! - section[b]! || lineDistanceM[a]! - lineDistanceM[b]! || spliceId[a]! - spliceId[b]!)
  }
  const table: SpliceTable = {
    count,
    sectionStart: new Int32Array(network.sections.length + 1),
    section: Int32Array.from(order, (i) => loose.section[i]!),
    lineDistanceM: Float64Array.from(order, (i) => loose.lineDistanceM[i]!),
    spliceId: Int32Array.from(order, (i) => loose.spliceId[i]!),
    phase: Uint16Array.from(order, (i) => loose.codes[3 * i]!),
    position: Uint16Array.from(order, (i) => loose.codes[3 * i + 1]!),
    subconductor: Uint16Array.from(order, (i) => loose.codes[3 * i + 2]!),
    label: sorted ? loose.label : Array.from(order, (i) => loose.label[i]),
    names,
  }
  for (const section of table.section) table.sectionStart[section + 1]!++
  for (let i = 0; i < network.sections.length; i++) table.sectionStart[i + 1]! += table.sectionStart[i]!
  return table
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
