import { nameKey, structureKey } from '@/lib/geo'
import { sectionRows, spanRows, standingRows, type SpanRow, type StandingRow } from '@/lib/store/network-rows'
import type { Scope } from '@/lib/store/scope'
import type { Db } from '@/lib/store/transaction'
import { sectionKey, sectionLine, type SectionLine } from './conductor'

/** A section with its structures and spans. */
export interface StoredLine extends SectionLine {
  standings: StandingRow[]
  spans: SpanRow[]
}

/** The lines that declarations in files are looked up in. */
export class StoredLines {
  private readonly byCircuit = new Map<string, StoredLine[]>()
  private readonly bySection = new Map<string, StoredLine>()

  constructor(readonly lines: readonly StoredLine[]) {
    for (const line of lines) {
      this.bySection.set(sectionKey(line.circuit, line.section), line)
      const own = this.byCircuit.get(nameKey(line.circuit))
      if (own) own.push(line)
      else this.byCircuit.set(nameKey(line.circuit), [line])
    }
  }

  /** Sections of a circuit; only the one where a section is named. */
  find(circuit: string, section: string | null): readonly StoredLine[] {
    if (section === null) return this.byCircuit.get(nameKey(circuit)) ?? []
    const line = this.bySection.get(sectionKey(circuit, section))
    return line ? [line] : []
  }

  get circuits(): string[] {
    return [...this.byCircuit.values()].flatMap(([line]) => line?.circuit ?? [])
  }

  hasCircuit(circuit: string): boolean {
    return this.byCircuit.has(nameKey(circuit))
  }
}

/** A structure of a section by its name or one of its aliases. */
export function standingOf(line: StoredLine, label: string): StandingRow | undefined {
  const key = structureKey(label)
  return line.standings.find((s) => structureKey(s.label) === key || s.aliases.some((alias) => structureKey(alias) === key))
}

export async function loadStoredLines(scope: Scope, db: Db): Promise<StoredLines> {
  const lines = (await sectionRows(scope, db)).map((row): StoredLine => ({ ...sectionLine(row), standings: [], spans: [] }))
  const byId = new Map(lines.map((line) => [line.id, line]))
  for (const standing of await standingRows(scope, db)) byId.get(standing.section_id)?.standings.push(standing)
  for (const span of await spanRows(scope, [...byId.keys()], db)) byId.get(span.section_id)?.spans.push(span)
  return new StoredLines(lines)
}
