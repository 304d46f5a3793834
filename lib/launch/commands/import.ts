import fs from 'node:fs'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { importFromStream, type Imported } from '@/lib/cases/import-from-stream'
import { openMapped, type Source } from '@/lib/cases/importing/open-mapped'
import { refuse, type CaseError } from '@/lib/cases/problem'
import { FileRefusal, IMPORT_KINDS, type ImportKind } from '@/lib/intake'
import { ok, type Result } from '@/lib/result/result'
import { allScope } from '@/lib/store/all-scope'
import { closeDatabase } from '@/lib/store/database'
import { getSettings } from '@/lib/store/settings'
import { database } from '@/lib/store/transaction'
import { DEMO_DIR, openEmbedded } from '../demo-database'
import { migrate } from '../migrate'
import { reportText } from '../report-text'
import { say, step, warn } from '../steps.mjs'

const USAGE = 'npm run import -- FILE... [--kind KIND] [--survey NAME] [--dry-run] [--json]'
const ALL_READ = 0
const REFUSED = 1
const SOME_REJECTED = 3

interface Options { kind?: ImportKind; survey?: string; dryRun: boolean; json: boolean }

/** `npm run import`: exit code 0 when all rows were read, 3 when some were rejected, 1 on a refusal. `--json` prints the reports. */
export async function run(args: string[]): Promise<number> {
  const { files, options } = parse(args)
  const given = process.env.DATABASE_URL
  const embedded = given ? null : await openEmbedded(DEMO_DIR)
  try {
    if (given) await migrate(given)
    let worst = ALL_READ
    for (const file of files) worst = severest(worst, await importOne(file, options))
    return worst
  } finally {
    await closeDatabase()
    await embedded?.stop()
  }
}

function parse(args: string[]): { files: string[]; options: Options } {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      kind: { type: 'string' },
      survey: { type: 'string' },
      'dry-run': { type: 'boolean', default: false },
      json: { type: 'boolean', default: false },
    },
  })
  const kind = IMPORT_KINDS.find((name) => name === values.kind)
  if (values.kind !== undefined && !kind) throw new Error(`There is no kind ${values.kind}. There are: ${IMPORT_KINDS.join(', ')}.`)
  if (positionals.length === 0) throw new Error(`No file was named. ${USAGE}`)
  const files = positionals.map((file) => path.resolve(process.env.INIT_CWD ?? '', file))
  const missing = files.find((file) => !fs.statSync(file, { throwIfNoEntry: false })?.isFile())
  if (missing) throw new Error(`There is no file ${missing}.`)
  return { files, options: { kind, survey: values.survey, dryRun: values['dry-run'], json: values.json } }
}

async function importOne(file: string, { kind, survey, dryRun, json }: Options): Promise<number> {
  const source = { fileName: path.basename(file), open: () => fs.createReadStream(file) }
  const imported: Result<Imported, CaseError> = await step(`Importing ${source.fileName}`, async (report) => {
    const onProgress = (phase: string, rows: number) => report(`${phase}, ${rows} rows`)
    const known = kind ? ok(kind) : await kindOf(source)
    return known.ok ? importFromStream(allScope(), source, { kind: known.value, survey, dryRun, actor: 'command', onProgress }) : known
  })
  if (!imported.ok) {
    warn(`${source.fileName} was refused: ${imported.error.message} ${imported.error.remedy}`)
    return REFUSED
  }
  const { report, again } = imported.value
  say(json ? JSON.stringify(report) : reportText(source.fileName, report, { dryRun, again }))
  return report.rejected > 0 ? SOME_REJECTED : ALL_READ
}

/** By the columns and first rows, as the web guesses it too. */
async function kindOf(source: Source): Promise<Result<ImportKind, CaseError>> {
  const scope = allScope()
  const options = { kind: undefined, mapping: null, settings: await getSettings(scope), networkBbox: null, nowMs: Date.now() }
  try {
    return ok((await openMapped(scope, source, options, database())).mapping.kind)
  } catch (e) {
    if (e instanceof FileRefusal) return refuse('invalid', e.message, e.remedy)
    throw e
  }
}

// A refusal weighs more than rejected rows, although its number is smaller.
const severest = (a: number, b: number): number => (a === REFUSED || b === REFUSED ? REFUSED : Math.max(a, b))
