import fs from 'node:fs'
import path from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { endImport } from '@/lib/cases/end-import'
import { importFromStream, type Imported } from '@/lib/cases/import-from-stream'
import { openMapped, type Source } from '@/lib/cases/importing/open-mapped'
import { refuseFile, type CaseError } from '@/lib/cases/problem'
import { rejectedRowsCsv } from '@/lib/cases/rejected-rows-csv'
import { KIND_OPEN } from '@/lib/contract/intake'
import { describeKind, FileRefusal, IMPORT_KINDS, type ImportKind, type Mapping, type Said } from '@/lib/intake'
import { err, ok, type Result } from '@/lib/result/result'
import { allScope } from '@/lib/store/all-scope'
import { closeDatabase } from '@/lib/store/database'
import { getSettings } from '@/lib/store/settings'
import { database } from '@/lib/store/transaction'
import { formatNumber } from '@/lib/units/format'
import { DEMO_DIR, hasEmbedded, openEmbedded, startEmbedded } from '../demo-database'
import { describeText, kindText } from '../describe-text'
import type { EmbeddedPostgres } from '../embedded-postgres'
import { asksForHelp } from '../help.mjs'
import { commandJson, undoJson, type FileOutcome } from '../import-json'
import { importOptions, rejectedPath, type ImportOptions } from '../import-options'
import { migrate } from '../migrate'
import { reportText } from '../report-text'
import { say, step, warn } from '../steps.mjs'
import { undoText } from '../undo-text'
import { usageSentence } from '../usage.mjs'

const ALL_READ = 0
const REFUSED = 1
const SOME_REJECTED = 3

/**
 * `npm run import`: exit code 0 when all rows were read, 3 when some were rejected, 1 on a refusal. `--json` prints one object on
 * stdout whatever happens.
 */
export async function run(args: string[]): Promise<number> {
  if (asksForHelp(args)) return help()
  const json = args.includes('--json')
  try {
    const options = importOptions(args)
    if (options.describe) return await describe(options.describe, options.dataDir, json)
    return await withStore(options, (name) => (options.undo === undefined ? importAll(options, name) : undoOne(options.undo, json)))
  } catch (e) {
    if (!json) throw e
    const problem = { code: 'not-imported', message: e instanceof Error ? usageSentence('import', e) : String(e), remedy: 'npm run import -- --help says what the command takes.' }
    say(JSON.stringify(commandJson([{ file: null, dryRun: args.includes('--dry-run'), problem }], REFUSED)))
    return REFUSED
  }
}

function help(): number {
  say('\nWhat is read of each kind; every row needs the fields marked *. Other headers and units are understood too: --describe KIND lists them.\n')
  say(IMPORT_KINDS.map((kind) => kindText(describeKind(kind))).join('\n\n'))
  return 0
}

async function describe(kinds: ImportKind[], dataDir: string | undefined, json: boolean): Promise<number> {
  const zone = await utilityZone(dataDir)
  const words = zone === null ? 'times in the utility\'s zone, which stands under Settings' : `${zone}, the utility's zone`
  const described = kinds.map((kind) => ({ ...describeKind(kind), time_zone: zone }))
  if (!json) say(kinds.map((kind) => describeText(kind, words)).join('\n\n'))
  else say(JSON.stringify(described.length === 1 ? described[0] : { kinds: described }))
  return 0
}

/** The zone that times without an offset are read in; null where there is no store yet that says so. */
async function utilityZone(dataDir?: string): Promise<string | null> {
  const given = dataDir === undefined ? process.env.DATABASE_URL : undefined
  const dir = dataDir ?? DEMO_DIR
  if (!given && !hasEmbedded(dir)) return null
  let embedded: EmbeddedPostgres | undefined
  try {
    if (!given) {
      embedded = await startEmbedded(dir)
      process.env.DATABASE_URL = embedded.url
    }
    return (await getSettings(allScope())).time_zone
  } catch {
    return null // a database that does not answer keeps nobody from reading what the columns mean
  } finally {
    await closeDatabase()
    await embedded?.stop()
  }
}

/** The database that --data names, else that of DATABASE_URL, else the demo's; `work` is told which, in words. */
async function withStore({ dataDir, create, kind }: ImportOptions, work: (database: string) => Promise<number>): Promise<number> {
  const given = dataDir === undefined ? process.env.DATABASE_URL : undefined
  const dir = dataDir ?? DEMO_DIR
  const name = given ? databaseName(given) : `embedded, in ${dir}`
  if (!given && !hasEmbedded(dir) && !create && kind !== 'lines') throw new Error(noDatabase(dir, dataDir === undefined))
  warn(`  Database: ${name}${given ? '' : dataDir === undefined ? ', the demo\'s; --data DIR or DATABASE_URL names another' : ', by --data'}`)
  if (!given && !hasEmbedded(dir)) {
    warn(`  There was no database in ${dir}: an empty one is made. Lines and structures come first, then splices, then readings.`)
  }
  const embedded = given ? null : await openEmbedded(dir)
  try {
    if (given) await migrate(given)
    return await work(name)
  } finally {
    await closeDatabase()
    await embedded?.stop()
  }
}

/** Lines begin a network and need nothing before them. Otherwise a name with a slip of the pen is no wish for an empty database, into which readings would go to be found on no line. */
const noDatabase = (dir: string, isDemo: boolean): string => `There is no database in ${path.resolve(dir)}. `
  + (isDemo
    ? 'Name the one to import into by --data DIR or DATABASE_URL; npm run demo makes this one, with the invented utility, and --create an empty one.'
    : `Check the directory; npm run demo -- --data ${dir} makes it with the invented utility, and --create an empty one.`)

/** Host and name alone: an address may hold a password. */
function databaseName(url: string): string {
  if (!URL.canParse(url)) return 'that of DATABASE_URL'
  const { host, pathname } = new URL(url)
  return `${pathname.slice(1)}${host === '' ? '' : ` at ${host}`}, by DATABASE_URL`
}

/** Takes one import back as one act, as the web does. */
async function undoOne(importId: number, json: boolean): Promise<number> {
  const ended = await step(`Undoing import ${importId}`, () => endImport(allScope(), importId, 'command'))
  const exitCode = ended.ok ? ALL_READ : REFUSED
  if (json) say(JSON.stringify(undoJson(importId, ended, exitCode)))
  else if (ended.ok) say(undoText(importId, ended.value))
  else warn(`Import ${importId} was not undone: ${ended.error.message} ${ended.error.remedy}`)
  return exitCode
}

async function importAll(options: ImportOptions, database: string): Promise<number> {
  const outcomes: FileOutcome[] = []
  for (const file of options.files) {
    const outcome = await importOne(file, options, database)
    outcomes.push(outcome)
    if (!options.json) tell(outcome)
  }
  const exitCode = outcomes.map(exitCodeOf).reduce(severest)
  if (options.json) say(JSON.stringify(commandJson(outcomes, exitCode)))
  return exitCode
}

async function importOne(file: string, { kind, said, fresh, survey, dryRun, rejected }: ImportOptions, database: string): Promise<FileOutcome> {
  const source = { fileName: path.basename(file), open: () => fs.createReadStream(file) }
  const imported: Result<Imported, CaseError> = await step(`Importing ${source.fileName}`, async (report) => {
    const onProgress = (phase: string, done: number) => report(`${phase}, ${formatNumber(done, 0)} ${phase === 'assessing' ? 'splices' : 'rows'}`)
    const known = kind && !said && !fresh ? ok({ kind, mapping: null }) : await mappingOf(source, kind, said, fresh, survey)
    if (!known.ok) return known
    const result = await importFromStream(allScope(), source, { ...known.value, survey, dryRun, actor: 'command', onProgress })
    return kind || result.ok ? result : err(assumedKind(result.error, known.value.kind))
  })
  if (!imported.ok) {
    const { code, fileCode, message } = imported.error
    const remedy = fileCode === 'mapping' || fileCode === KIND_OPEN ? `${imported.error.remedy} ${BY_COMMAND}` : imported.error.remedy
    return { file, dryRun, database, problem: { code: fileCode ?? code, message, remedy } }
  }
  const { report, again } = imported.value
  const rejectedFile = rejected !== undefined && report.rejected > 0 ? await writeRejected(report.import_id, rejectedPath(rejected, file)) : undefined
  const { time_zone: timeZone } = await getSettings(allScope())
  return { file, dryRun, database, report, again, guessed: kind === undefined, rejectedFile, timeZone }
}

const BY_COMMAND = '--kind KIND says what the rows are, --map field=column what a column holds; npm run import -- --describe KIND lists the fields.'

/** Of a file whose kind was not given, a refusal says for what it was taken. */
const assumedKind = (error: CaseError, kind: ImportKind): CaseError =>
  ({ ...error, message: `${error.message} It was taken for ${kind}, which its columns fit best; --kind says what it is.` })

function tell({ file, dryRun, database, report, again, guessed, rejectedFile, timeZone, problem }: FileOutcome): void {
  const name = path.basename(file ?? '')
  if (problem) warn(`${name} was refused: ${problem.message} ${problem.remedy}`)
  if (report) say(reportText(name, report, { dryRun, again, guessed, rejectedFile, timeZone, database }))
}

async function writeRejected(importId: number, file: string): Promise<string> {
  const lines = (await rejectedRowsCsv(allScope(), importId))?.lines
  if (lines) await pipeline(Readable.from(lines), fs.createWriteStream(file))
  return file
}

/** By the columns and first rows, as the web guesses it too. The mapping is the person's own only where they said something about it. */
async function mappingOf(source: Source, kind?: ImportKind, said?: Said, fresh = false, survey?: string): Promise<Result<{ kind: ImportKind; mapping: Mapping | null }, CaseError>> {
  const scope = allScope()
  const options = { kind, said, fresh, survey, mapping: null, settings: await getSettings(scope), networkBbox: null, nowMs: Date.now() }
  try {
    const { mapping } = await openMapped(scope, source, options, database())
    return ok({ kind: mapping.kind, mapping: said || fresh ? mapping : null })
  } catch (e) {
    if (e instanceof FileRefusal) return refuseFile(e)
    throw e
  }
}

const exitCodeOf = ({ report }: FileOutcome): number => (!report ? REFUSED : report.rejected > 0 ? SOME_REJECTED : ALL_READ)

// A refusal weighs more than rejected rows, although its number is smaller.
const severest = (a: number, b: number): number => (a === REFUSED || b === REFUSED ? REFUSED : Math.max(a, b))
