import { KIND_OPEN } from '@/lib/contract/intake'
import type { SettingsJson } from '@/lib/contract/settings'
import {
  FileRefusal, KINDS, compileMapping, findDateOrder, guessMapping, hash128, hasSplice, headerHash, kindDoubt, lackingFields, mappingProblems, needsDateScan, openFile,
  urgentUnread, withMarksByColumn, withSaid, type ImportKind, type Mapping, type NormaliseContext, type Normaliser, type RawRow, type RowIssue, type RowIterator, type Said, type Table,
} from '@/lib/intake'
import { columnCalled } from '@/lib/intake/mapping/choose-fields'
import { columnsOf } from '@/lib/intake/normalise/columns'
import { importToRun } from '@/lib/store/imports'
import { mappingFor, type Remembered } from '@/lib/store/mapping-profiles'
import { currentPolicy } from '@/lib/store/policies'
import { loadSectionFacts } from '@/lib/store/section-facts'
import type { Scope } from '@/lib/store/scope'
import type { Db } from '@/lib/store/transaction'
import { surveyOfFile } from '../survey-of-file'
import { MappingRefusal } from './mapping-refusal'

/** A file that can be read from its start more than once. */
export interface Source {
  fileName: string
  open(): AsyncIterable<Uint8Array>
}

export interface OpenedFile {
  columns: string[]
  delimiter: string | null
  mapping: Mapping
  /** What of it holds for the next file with the same columns: not what was said of every row, nor the order that this file's own dates prove. */
  toRemember: Mapping
  headerHash: string
  normaliser: Normaliser
  /** The rows that were looked at already, and where the others come from. */
  first: readonly (RawRow | RowIssue)[]
  rest: RowIterator
  /** What was said of an earlier file with the same columns and is taken for this one, in a sentence. */
  asBefore: string | null
  /** How the bytes were understood. */
  notes: string[]
  /** Survey of the import whose rejected rows these are, for those that name none. */
  survey: string | null
}

/** So many rows tell units, decimal commas and the order of dates. */
const SAMPLE_ROWS = 50

export interface OpenOptions {
  kind: ImportKind | undefined
  mapping: Mapping | null
  /** What a person named as the survey of the file. */
  survey?: string | null
  /** What a person said of the file by command, over what was guessed or remembered. */
  said?: Said
  /** Guess anew, whatever was confirmed for a file with the same columns. */
  fresh?: boolean
  settings: SettingsJson
  networkBbox: [number, number, number, number] | null
  nowMs: number
  /** The rows were not made together: what none of them has is said of each, and refuses none of the others. */
  judgesRowsAlone?: boolean
}

/** Opens a file, finds out or takes what its columns mean, and stands before its first row. @throws FileRefusal */
export async function openMapped(scope: Scope, source: Source, options: OpenOptions, db: Db): Promise<OpenedFile> {
  return mapped(scope, await openFile(source.open(), source.fileName), options, db, async () => openFile(source.open(), source.fileName))
}

/** The same for rows that are a table already. */
export async function mapped(scope: Scope, table: Table, options: OpenOptions, db: Db, again?: () => Promise<Table>): Promise<OpenedFile> {
  const iterator = table.rows[Symbol.asyncIterator]()
  const first = await take(iterator, SAMPLE_ROWS)
  if (first.length === 0 && table.columns.length === 0) {
    throw new FileRefusal('no-rows', 'The file is a collection without features.', 'Export it again with its features.')
  }
  const sample = first.filter((row): row is RawRow => !('severity' in row))
  const hash = headerHash(table.columns)
  const origin = await originOf(scope, table, options.kind, db)
  const earlier = origin || options.fresh ? undefined : await mappingFor(scope, hash, options.mapping?.kind ?? options.kind, db)
  const remembered = options.mapping ? undefined : earlier?.mapping
  const known = origin?.mapping ?? remembered
  const isGuessed = options.kind === undefined && options.mapping === null && known === undefined
  const best = options.mapping ?? guessMapping(table.columns, sample, options.kind, known)
  const doubt = isGuessed ? kindDoubt(best, sample, new Set(options.said?.fields?.map(({ column }) => columnCalled(column, table.columns))), options.survey?.trim() || null) : null
  const guessed = doubt ? guessMapping(table.columns, sample, 'readings') : best
  const said = withSaid(guessed, options.said ?? {}, table.columns, sample)
  const mapping = await withDateOrder(origin ? said : withMarksByColumn(said, table.columns, sample), table, sample, again)
  const factsOf = mapping.kind === 'readings' || doubt ? (await loadSectionFacts(scope, db)).named : undefined
  const context = { ...normaliseContext(options), policy: await currentPolicy(scope, db), factsOf }
  const found = { columns: table.columns, mapping, sample, alarms: urgentUnread(mapping, table.columns, sample, context) }
  const refusal = refusalOf(found, table, isGuessed)
  if (refusal) throw refusal
  if (doubt && !doubt.isReadings) {
    if (isStrange(best)) throw noFit(best.kind, doubt.why, found, isGuessed)
    throw new MappingRefusal(KIND_OPEN, `${doubt.why} The other columns fit ${best.kind} best, and the kind is not guessed then.`, SAY_KIND, found)
  }
  const lacking = options.judgesRowsAlone || first.length === 0 ? null : lackingFields(mapping, table.columns)
  // What no column holds a row may still have otherwise, so the first rows are tried before anything is said.
  if (lacking !== null && !sample.some((row) => compileMapping(mapping, table.columns, context).row(row).state !== 'rejected')) {
    throw noFit(mapping.kind, doubt ? `${doubt.why} ${lacking}` : lacking, found, isGuessed, `Map a column to one of them, or correct the header line of the file. A file that holds none of them is none of ${mapping.kind}.`)
  }
  return {
    columns: table.columns, delimiter: table.delimiter ?? null, mapping, headerHash: hash, normaliser: compileMapping(mapping, table.columns, context),
    first, rest: iterator, asBefore: earlier ? asBefore(mapping, earlier) : null, notes: table.notes, survey: origin?.survey ?? null,
    toRemember: { ...mapping, values: undefined, dateOrder: options.mapping === null ? undefined : await saidDateOrder(mapping, table, sample, earlier?.mapping, again) },
  }
}

/**
 * The order of dates where a person said it, here or of an earlier file. A file that proves one by its own dates has it in its mapping as
 * well, and says nothing of the next file.
 */
async function saidDateOrder(mapping: Mapping, table: Table, sample: readonly RawRow[], earlier: Mapping | undefined, again?: () => Promise<Table>): Promise<Mapping['dateOrder']> {
  const { dateOrder } = mapping
  if (dateOrder === undefined || dateOrder === earlier?.dateOrder) return dateOrder
  const { dateOrder: proved } = await withDateOrder({ ...mapping, dateOrder: undefined }, table, sample, again)
  return proved === undefined ? dateOrder : undefined
}

/**
 * What a person settled for one file is taken for the next one with the same columns, and they are told; of a mapping that comes back from the
 * page only what still is as it was. Null where nothing of it is.
 */
function asBefore({ columns, timeZone, dateOrder, decimalComma }: Mapping, { mapping: earlier, importId }: Remembered): string | null {
  if (!columns.some(({ basis }) => basis === 'remembered')) return null
  const what = [
    'columns', ...timeZone === undefined || timeZone !== earlier.timeZone ? [] : [`zone (${timeZone})`],
    ...dateOrder === undefined || dateOrder !== earlier.dateOrder ? [] : [`date order (${dateOrder === 'dmy' ? 'day' : 'month'} first)`],
    ...decimalComma === undefined || decimalComma !== earlier.decimalComma ? [] : [`decimal ${decimalComma ? 'comma' : 'point'}`],
  ]
  return `Read as ${importId === null ? 'an earlier file with the same columns' : `import ${importId}`} was: ${what.join(', ')}. Check it where this file differs, or forget it (by its button under Intake, or by command --fresh-mapping).`
}

const SAY_KIND = 'Say which kind of file it is. Where its rows are readings, say too which columns hold their resistances or temperatures.'

/** Why the columns of the file cannot be used as they are mapped; null where they can. */
function refusalOf(found: MappingRefusal['found'], table: Table, isGuessed: boolean): MappingRefusal | null {
  const { mapping, sample } = found
  const isFlat = table.delimiter !== undefined && table.rejectedFrom === undefined
  if (isFlat && (KINDS[mapping.kind].geometry === 'line' || (isGuessed && holdsCourse(sample)))) {
    return new MappingRefusal('lines-are-geojson', `Lines are read from GeoJSON only, and this file is a CSV${holdsCourse(sample) ? ' with their course as text in its cells' : ', which has no place for their course'}.`,
      'Export the lines as GeoJSON (RFC 7946) from where they are drawn, each a LineString with its circuit among the properties. If the rows are something else, say which kind.', found)
  }
  const problems = mappingProblems(mapping, table.columns)
  if (problems.length === 0 && isGuessed && mapping.kind === 'splices' && !hasSplice(mapping)) {
    return new MappingRefusal('mapping', 'The columns name circuits and places, and nothing says that there are splices: no label, phase or kind.',
      'Say which kind of file it is: structures, splices, or something else.', found)
  }
  if (problems.length === 0) return null
  return noFit(mapping.kind, problems.join(' '), found, isGuessed)
}

const isStrange = ({ columns }: Mapping): boolean => columns.every(({ field }) => field === null)

function noFit(kind: ImportKind, words: string, found: MappingRefusal['found'], isGuessed: boolean, remedy = 'Correct the mapping of the columns, or the header line of the file.'): MappingRefusal {
  if (!isGuessed) return new MappingRefusal('mapping', words, remedy, found)
  const taken = isStrange(found.mapping) ? `No column of the file has a name that is known. ${columnsOf(found.columns)}` : `The file was taken for ${kind}, which its columns fit best. ${words}`
  return new MappingRefusal('mapping', taken, 'Say which kind of file it is and which column holds what, or correct the header line of the file.', found)
}

/** A course written into cells, as well-known text (ISO 19125-1) or as GeoJSON: rows that have one are lines. */
const COURSE = /^\s*(?:SRID=\d+;\s*)?(?:MULTI)?LINESTRING\b|^\s*\{[^}]*"type"\s*:\s*"(?:Multi)?LineString"/i

const holdsCourse = (sample: readonly RawRow[]): boolean => sample.some(({ cells }) => Object.values(cells).some((cell) => COURSE.test(cell)))

/** Rejected rows that come back are read as the file was that they came from, where their columns are still the same. */
async function originOf(scope: Scope, table: Table, kind: ImportKind | undefined, db: Db): Promise<{ mapping: Mapping; survey: string } | null> {
  const from = table.rejectedFrom === undefined ? undefined : await importToRun(scope, table.rejectedFrom, db)
  if (!from?.mapping || !from.header || headerHash(from.header) !== headerHash(table.columns)) return null
  if (kind !== undefined && kind !== from.mapping.kind) return null
  return { mapping: from.mapping, survey: from.survey_name ?? surveyOfFile(from.file_name) }
}

const normaliseContext = ({ settings, networkBbox, nowMs }: OpenOptions): NormaliseContext => ({
  timeZone: settings.time_zone, nowMs, hash: hash128,
  phaseLetters: Object.fromEntries(Object.entries(settings.phase_letters).map(([phase, word]) => [word.toLowerCase(), phase])),
  ...(networkBbox ? { networkBbox } : {}),
})

/** Dates such as 03/04/2026 read as other dates of the same file do, wherever in the file those stand. */
async function withDateOrder(mapping: Mapping, table: Table, sample: readonly RawRow[], again?: () => Promise<Table>): Promise<Mapping> {
  if (!again || !needsDateScan(mapping, sample)) return mapping
  const dateOrder = await findDateOrder(await again(), mapping)
  return dateOrder ? { ...mapping, dateOrder } : mapping
}

async function take<T>(iterator: AsyncIterator<T>, count: number): Promise<T[]> {
  const rows: T[] = []
  while (rows.length < count) {
    const next = await iterator.next()
    if (next.done) break
    rows.push(next.value)
  }
  return rows
}
