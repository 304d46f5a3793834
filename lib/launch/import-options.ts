import fs from 'node:fs'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { findField, IMPORT_KINDS, rejectedName, type FieldChoice, type ImportKind, type Said } from '@/lib/intake'
import { pairOf, saidOf } from './import-said'

export interface ImportOptions {
  files: string[]
  kind?: ImportKind
  survey?: string
  dryRun: boolean
  json: boolean
  /** Where rejected rows are to be written: a file, or a directory for one file each. */
  rejected?: string
  /** What is said of each file over what is guessed of it. */
  said?: Said
  /** Where the embedded database stands that is imported into. */
  dataDir?: string
  /** Whether an empty database is made where there is none. */
  create: boolean
  /** Whether what was said of an earlier file with the same columns is left aside, and forgotten. */
  fresh?: boolean
  /** An import to take back instead of importing anything. */
  undo?: number
  /** Kinds to describe instead of importing anything. */
  describe?: ImportKind[]
}

const OPTIONS = {
  kind: { type: 'string' },
  survey: { type: 'string' },
  'dry-run': { type: 'boolean', default: false },
  json: { type: 'boolean', default: false },
  rejected: { type: 'string' },
  data: { type: 'string' },
  create: { type: 'boolean', default: false },
  'fresh-mapping': { type: 'boolean', default: false },
  map: { type: 'string', multiple: true },
  unit: { type: 'string', multiple: true },
  zone: { type: 'string' },
  'date-order': { type: 'string' },
  decimal: { type: 'string' },
  set: { type: 'string', multiple: true },
  undo: { type: 'string' },
  describe: { type: 'string' },
  help: { type: 'boolean', short: 'h', default: false },
} as const

/** What `npm run import` was asked for. Throws a sentence where that cannot be done. Paths are read from where the user stands. */
export function importOptions(args: string[], standsIn = process.env.INIT_CWD ?? ''): ImportOptions {
  const { values, positionals } = parseArgs({ args, allowPositionals: true, options: OPTIONS })
  const at = (file: string) => path.resolve(standsIn, file)
  if (values.data?.trim() === '') throw new Error('--data names no directory. Leave it out for the demo\'s own database.')
  const options: ImportOptions = {
    files: positionals.map(at), kind: values.kind === undefined ? undefined : kindCalled(values.kind), survey: values.survey,
    dryRun: values['dry-run'], json: values.json, create: values.create, ...(values['fresh-mapping'] && { fresh: true }), ...(values.rejected !== undefined && { rejected: at(values.rejected) }),
    // From where the demo reads its own --data, so that the same words name the same directory.
    ...(values.data !== undefined && { dataDir: values.data }),
  }
  if (values.describe !== undefined) return { ...options, describe: values.describe === 'all' ? [...IMPORT_KINDS] : [kindCalled(values.describe)] }
  if (values.undo !== undefined) return { ...options, undo: importToUndo(values.undo, values, positionals) }
  if (options.files.length === 0) throw new Error('No file was named. Name one or more; npm run import -- --help says what the command takes.')
  options.files.forEach(mustBeFile)
  checkRejected(options)
  const chosen = values.map === undefined ? undefined : chosenFields(values.map, options.kind)
  const said = saidOf({ ...values, dateOrder: values['date-order'] }, chosen?.fields)
  return said === undefined ? options : { ...options, kind: chosen?.kind ?? options.kind, said }
}

function mustBeFile(file: string): void {
  if (isDirectory(file)) {
    throw new Error(`${file} is a directory. Name the files in it, for example ${path.join(file, '*.csv')}; the lines and structures first, then splices, then readings.`)
  }
  if (!fs.statSync(file, { throwIfNoEntry: false })?.isFile()) {
    throw new Error(`There is no file ${file}. Check the path; it is read from the directory where the command is called.`)
  }
}

const REPORTING = new Set(['undo', 'json', 'dry-run', 'data'])

function importToUndo(text: string, values: Record<string, unknown>, files: readonly string[]): number {
  if (!/^[1-9]\d{0,8}$/.test(text)) throw new Error(`'${text}' is no import's number. Take it from the import's report, or from the address of its page: /intake/NUMBER.`)
  const others = Object.keys(values).filter((name) => !REPORTING.has(name) && values[name] !== undefined && values[name] !== false)
  if (files.length > 0 || others.length > 0 || values['dry-run'] === true) {
    throw new Error('--undo takes one import back and nothing beside it but --json and --data. Call the command once for each.')
  }
  return Number(text)
}

/** `field=column` of each --map, and the kind where only one has such fields. */
function chosenFields(texts: readonly string[], kind: ImportKind | undefined): { fields: FieldChoice[]; kind: ImportKind | undefined } {
  const fields = texts.map((text) => {
    const [field, column] = pairOf('--map', text, 'field=column', '--map "conductor_uohm=R cond"')
    return { field, column }
  })
  for (const [at, { field, column }] of fields.entries()) {
    const before = fields.slice(0, at)
    if (before.some((other) => other.column === column)) throw new Error(`--map names the column '${column}' twice. A column holds one field: say it once.`)
    const other = before.find((one) => one.field === field)
    // A date in one column and a time of day in another make one moment.
    const isMoment = IMPORT_KINDS.some((each) => findField(each, field)?.type === 'instant')
    if (other && (!isMoment || before.filter((one) => one.field === field).length > 1)) {
      throw new Error(`--map names ${field} twice, as '${other.column}' and as '${column}'. Give each field one column${isMoment ? ', or two: the date and the time of day' : ''}.`)
    }
  }
  const kinds = (kind ? [kind] : IMPORT_KINDS).filter((each) => fields.every(({ field }) => findField(each, field)))
  if (kinds.length > 0) return { fields, kind: kinds.length === 1 ? kinds[0] : kind }
  const unknown = fields.find(({ field }) => !(kind ? [kind] : IMPORT_KINDS).some((each) => findField(each, field)))
  const what = kind ?? 'any kind of file'
  throw new Error(unknown
    ? `There is no field '${unknown.field}' of ${what}. npm run import -- --describe ${kind ?? 'all'} lists the fields.`
    : 'No kind of file has all the fields that --map names. npm run import -- --describe all lists the fields of each.')
}

function kindCalled(name: string): ImportKind {
  const kind = IMPORT_KINDS.find((each) => each === name)
  if (!kind) throw new Error(`There is no kind '${name}'. There are: ${IMPORT_KINDS.join(', ')}.`)
  return kind
}

function checkRejected({ files, rejected }: ImportOptions): void {
  if (rejected === undefined || isDirectory(rejected)) return
  if (files.length > 1) throw new Error('--rejected names one file, and several files are imported. Name a directory that exists.')
  if (files.includes(rejected)) throw new Error('--rejected names the file that is imported. Name another one.')
  if (!isDirectory(path.dirname(rejected))) throw new Error(`There is no directory ${path.dirname(rejected)} to write rejected rows to.`)
}

/** Where the rejected rows of a file are written. */
export const rejectedPath = (rejected: string, file: string): string =>
  isDirectory(rejected) ? path.join(rejected, rejectedName(path.basename(file))) : rejected

const isDirectory = (file: string): boolean => fs.statSync(file, { throwIfNoEntry: false })?.isDirectory() ?? false
