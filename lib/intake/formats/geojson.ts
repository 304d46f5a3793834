import { checkColumnCount } from '../guards/columns'
import { decodeText } from '../text/decode'
import { headText } from '../text/head-text'
import { type JsonElement, JsonElements } from '../text/json-elements'
import { type Format, FileRefusal, type RawRow, type RowIssue, type Table } from '../types'
import { crsNote } from './geojson-crs'
import { type Feature, readFeature } from './geojson-feature'

/** RFC 7946: a FeatureCollection, one Feature, a bare geometry, or several of them one after the other. */
export const geojson: Format = {
  id: 'geojson',
  label: 'GeoJSON',
  extensions: ['geojson', 'json', 'geojsonl', 'ndjson'],
  mediaTypes: ['application/geo+json', 'application/json', 'application/geo+json-seq'],
  sniff: (head) => {
    const text = headText(head)
    return text !== null && /^[\s\u001e\ufeff]*\{/.test(text)
  },
  open,
}

/** Text that is read before the columns are named; columns that come later are added as they come. */
const SAMPLE_CHARS = 4_000_000

async function open(bytes: AsyncIterable<Uint8Array>): Promise<Table> {
  const { chunks, notes } = await decodeText(bytes)
  const reader = new FeatureReader(chunks, notes)
  await reader.readAhead(SAMPLE_CHARS)
  return { columns: reader.columns, rows: reader.rows(), notes }
}

class FeatureReader {
  readonly columns: string[] = []
  private readonly names = new Set<string>()
  private readonly elements = new JsonElements()
  private readonly iterator: AsyncIterator<string>
  private readonly waiting: (Feature | RowIssue)[] = []
  private row = 0
  private done = false
  private named = false
  private noted = false
  /** What ends the file badly is thrown after the rows before it. */
  private failure: FileRefusal | null = null

  constructor(chunks: AsyncIterable<string>, private readonly notes: string[]) {
    this.iterator = chunks[Symbol.asyncIterator]()
  }

  async readAhead(chars: number): Promise<void> {
    for (let read = 0; read < chars && !this.done; ) read += await this.readChunk()
    if (this.failure && (this.failure.code !== 'truncated' || this.waiting.length === 0)) throw this.failure
    this.named = true
  }

  async *rows(): AsyncGenerator<RawRow | RowIssue> {
    try {
      for (;;) {
        for (const feature of this.waiting) yield 'severity' in feature ? feature : new GeoRow(feature, this.columns)
        this.waiting.length = 0
        if (this.done) break
        await this.readChunk()
      }
      if (this.failure) throw this.failure
    } finally {
      await this.iterator.return?.()
    }
  }

  private async readChunk(): Promise<number> {
    const next = await this.iterator.next()
    try {
      if (next.done) this.elements.end()
      else for (const element of this.elements.push(next.value)) this.take(element)
    } catch (failure) {
      if (!(failure instanceof FileRefusal)) throw failure
      this.failure = failure
    }
    this.done = next.done === true || this.failure !== null
    this.noteCrs()
    return next.done ? 0 : next.value.length
  }

  private take(element: JsonElement): void {
    const feature = readFeature(element, ++this.row)
    this.waiting.push(feature)
    if ('severity' in feature) return
    for (const name of feature.cells.keys()) if (!this.names.has(name)) this.addColumn(name)
  }

  private addColumn(name: string): void {
    this.names.add(name)
    this.columns.push(name)
    checkColumnCount(this.columns.length)
    if (this.named) this.notes.push(`The property '${name}' first appears in feature ${this.row} and has no mapping.`)
  }

  private noteCrs(): void {
    const crs = this.elements.members.get('crs')
    if (crs === undefined || this.noted) return
    this.noted = true
    const note = crsNote(crs)
    if (note) this.notes.push(note)
  }
}

class GeoRow implements RawRow {
  constructor(private readonly feature: Feature, private readonly columns: readonly string[]) {}

  get row(): number {
    return this.feature.row
  }

  get raw(): string {
    return this.feature.raw
  }

  get geometry(): RawRow['geometry'] {
    return this.feature.geometry
  }

  get cells(): Record<string, string> {
    const cells = Object.create(null) as Record<string, string>
    for (const [name, value] of this.feature.cells) cells[name] = value
    return cells
  }

  get values(): readonly string[] {
    return this.columns.map((column) => this.feature.cells.get(column) ?? '')
  }
}
