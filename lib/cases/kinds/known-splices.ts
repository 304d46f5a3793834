import { nameKey } from '@/lib/geo'
import type { SpliceRecord } from '@/lib/intake'
import type { SpliceRow } from '@/lib/store/splice-writes'
import type { DeclaredPlace } from '../network/place-declared'

/** A splice on the same conductor this close along the line is the same splice. */
const SAME_PLACE_M = 15

const keyOf = (circuit: string, label: string): string => `${nameKey(circuit)}\n${nameKey(label)}`

/** Splices of the store and of the file so far, by name and by place. */
export class KnownSplices {
  private readonly labels = new Map<string, SpliceRow | 'of this file'>()
  private readonly sections = new Map<number, SpliceRow[]>()
  private readonly ids = new Map<SpliceRecord, number>()
  private readonly labelIds = new Map<string, number>()
  private readonly taken = new Set<number>()

  constructor(rows: readonly SpliceRow[]) {
    for (const row of rows) {
      if (row.label !== null) {
        this.labels.set(keyOf(row.circuit, row.label), row)
        this.labelIds.set(keyOf(row.circuit, row.label), row.id)
      }
      const own = this.sections.get(row.section_id)
      if (own) own.push(row)
      else this.sections.set(row.section_id, [row])
    }
  }

  /** The stored splice that a row means; 'twice' where the file has named it before. */
  find(r: SpliceRecord, place: DeclaredPlace): SpliceRow | 'twice' | undefined {
    const named = r.spliceId === null ? undefined : this.labels.get(keyOf(r.circuit, r.spliceId))
    if (named === 'of this file' || (named && this.taken.has(named.id))) return 'twice'
    const found = named ?? this.near(r, place)
    if (found) {
      this.taken.add(found.id)
      this.ids.set(r, found.id)
      if (r.spliceId !== null) this.labelIds.set(keyOf(r.circuit, r.spliceId), found.id)
    }
    return found
  }

  /** A row that will be a new splice. */
  willBe(r: SpliceRecord): void {
    if (r.spliceId !== null) this.labels.set(keyOf(r.circuit, r.spliceId), 'of this file')
  }

  isNow(r: SpliceRecord | undefined, id: number): void {
    if (!r) return
    this.ids.set(r, id)
    if (r.spliceId !== null) this.labelIds.set(keyOf(r.circuit, r.spliceId), id)
  }

  idOf(r: SpliceRecord): number | undefined {
    return this.ids.get(r)
  }

  byLabel(circuit: string, label: string): number | undefined {
    return this.labelIds.get(keyOf(circuit, label))
  }

  successorOf(id: number): number | null | undefined {
    for (const rows of this.sections.values()) {
      const row = rows.find((one) => one.id === id)
      if (row) return row.successor_of_id
    }
    return undefined
  }

  /** By place: only a splice without a name, or any where the row gives none; in service, and on the same conductor as far as both say. */
  private near(r: SpliceRecord, { line, lineDistanceM, issues }: DeclaredPlace): SpliceRow | undefined {
    if (issues.length > 0 || r.removedOn !== null) return undefined
    const agree = (a: string | null, b: string | null) => a === null || b === null || a === b
    const open = (this.sections.get(line.id) ?? []).filter((row) => !this.taken.has(row.id) && row.removed_on === null
      && (row.label === null || r.spliceId === null) && Math.abs(row.line_distance_m - lineDistanceM) <= SAME_PLACE_M
      && agree(row.phase, r.phase) && agree(row.subconductor, r.subconductor) && agree(row.position, r.position))
    return open.length === 1 ? open[0] : open.find((row) => Math.abs(row.line_distance_m - lineDistanceM) < 0.5 && row.phase === r.phase)
  }
}
