import type { PlacementOutcome } from '@/lib/geo'
import { formatNumber } from '@/lib/units/format'
import type { Issue } from '../importing/issue-log'
import { nearestName } from '../kinds/unknown-names'

const WORDS: Readonly<Record<string, string>> = {
  circuit: 'circuit', section: 'section', structure_back: 'structure', structure_ahead: 'structure', splice_id: 'splice',
}

interface Unknown { field: string; value: string; circuit: string | null; known: string | null; count: number; firstRow: number }

/** Names that readings of a file declare and the network does not have, each once with its count: such readings wait for review. */
export class UnknownDeclared {
  private readonly names = new Map<string, Unknown>()

  look({ state, reasons }: PlacementOutcome, row: number): void {
    if (state === 'placed') return
    for (const { code, values = {} } of reasons) {
      const field = String(values.field ?? '')
      if ((code !== 'declared-unknown' && values.unknown === undefined) || WORDS[field] === undefined) continue
      const unknown = { field, value: textOf(values.value) ?? '', circuit: textOf(values.circuit), known: textOf(values.known) }
      const key = JSON.stringify(unknown)
      const before = this.names.get(key)
      if (!before) this.names.set(key, { ...unknown, count: 1, firstRow: row })
      else {
        before.count++
        before.firstRow = Math.min(before.firstRow, row)
      }
    }
  }

  /** One remark on the file for each name, the most frequent first. */
  issues(circuits: readonly string[]): Issue[] {
    return [...this.names.values()].sort((a, b) => b.count - a.count).map((name) => {
      const { field, value, circuit, count, firstRow } = name
      const word = WORDS[field] ?? field
      const nearest = name.known ?? (field === 'circuit' ? nearestName(value, circuits) : null)
      const rows = count === 1 ? `row ${firstRow} names it, and waits` : `${formatNumber(count, 0)} rows name it, the first is row ${firstRow}, and they wait`
      return {
        severity: 'warning', row: 0, field, value, code: `unknown-${word}`,
        message: `File: there is no ${word} '${value}'${circuit === null ? '' : ` on circuit ${circuit}`}: ${rows} for review.${nearest === null ? '' : ` The nearest name is ${nearest}.`}`,
        remedy: `Where the name is wrong, undo this import, correct it${nearest === null ? '' : ` to ${nearest}`} and import the file again. `
          + `Where the ${word} is missing, import it first. One by one they are settled under Review.`,
      }
    })
  }
}

const textOf = (value: unknown): string | null => (value === undefined || value === null || value === '' ? null : String(value))
