import fs from 'node:fs'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { IMPORT_KINDS, type ImportKind } from '@/lib/intake'

export interface ImportOptions {
  files: string[]
  kind?: ImportKind
  survey?: string
  dryRun: boolean
  json: boolean
  /** Where rejected rows are to be written: a file, or a directory for one file each. */
  rejected?: string
  /** Kinds to describe instead of importing anything. */
  describe?: ImportKind[]
}

const OPTIONS = {
  kind: { type: 'string' },
  survey: { type: 'string' },
  'dry-run': { type: 'boolean', default: false },
  json: { type: 'boolean', default: false },
  rejected: { type: 'string' },
  describe: { type: 'string' },
  help: { type: 'boolean', short: 'h', default: false },
} as const

/** What `npm run import` was asked for. Throws a sentence where that cannot be done. Paths are read from where the user stands. */
export function importOptions(args: string[], standsIn = process.env.INIT_CWD ?? ''): ImportOptions {
  const { values, positionals } = parseArgs({ args, allowPositionals: true, options: OPTIONS })
  const at = (file: string) => path.resolve(standsIn, file)
  const options: ImportOptions = {
    files: positionals.map(at), kind: values.kind === undefined ? undefined : kindCalled(values.kind), survey: values.survey,
    dryRun: values['dry-run'], json: values.json, ...(values.rejected !== undefined && { rejected: at(values.rejected) }),
  }
  if (values.describe !== undefined) return { ...options, describe: values.describe === 'all' ? [...IMPORT_KINDS] : [kindCalled(values.describe)] }
  if (options.files.length === 0) throw new Error('No file was named. Name one or more; npm run import -- --help says what the command takes.')
  const missing = options.files.find((file) => !fs.statSync(file, { throwIfNoEntry: false })?.isFile())
  if (missing) throw new Error(`There is no file ${missing}. Check the path; it is read from the directory where the command is called.`)
  checkRejected(options)
  return options
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
  isDirectory(rejected) ? path.join(rejected, `${path.basename(file)}.rejected.csv`) : rejected

const isDirectory = (file: string): boolean => fs.statSync(file, { throwIfNoEntry: false })?.isDirectory() ?? false
