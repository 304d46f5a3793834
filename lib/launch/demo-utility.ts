import fs from 'node:fs'
import path from 'node:path'
import { acknowledgeUrgent } from '@/lib/cases/acknowledge-urgent'
import { importFromStream } from '@/lib/cases/import-from-stream'
import { noteIfItTrips } from '@/lib/cases/note-if-it-trips'
import { allScope } from '@/lib/store/all-scope'
import { circuitsCalled } from '@/lib/store/circuits'
import { closeDatabase } from '@/lib/store/database'
import { policySchema } from '@/lib/condition'
import { currentPolicyJson, insertPolicy } from '@/lib/store/policies'
import { putSettings } from '@/lib/store/settings'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { listUrgent } from '@/lib/store/urgent'
import { formatNumber } from '@/lib/units/format'
import { CALLED_IN_BEFORE, TRIPS, UTILITY_NAME, writeDemoFiles, type DemoFile } from '@/seed'
import { step } from './steps.mjs'

const SETTINGS = { unit_system: 'us' as const, time_zone: 'America/Denver', utility_name: UTILITY_NAME, information_mark: 'Internal: grid information, not for release' }
/** The invented lines cross mountains: thinner air cools less than that of the sea. */
const ELEVATION_M = 1000
const LOADED = 'demo_loaded'
const ACTOR = 'demo'

/** Whose lines and readings a store holds: the invented utility's, or somebody's own, which the demo leaves as they are. */
export type Holds = 'demo' | 'own'

/**
 * Loads the invented utility into the database of DATABASE_URL, once: its files are written to `dir` and imported as users import theirs.
 * A load that was broken off goes on where it stopped, since the same file again changes nothing. A store into which somebody imported
 * before any demo was loaded is theirs, and nothing is added to it.
 */
export async function loadDemoUtility(dir: string): Promise<Holds> {
  try {
    if (await database().row(sql`SELECT FROM setting WHERE key = ${LOADED}`)) return 'demo'
    if (await holdsOwnUtility()) return 'own'
    await putSettings(allScope(), SETTINGS, database())
    await setPolicy()
    const files = await step('Drawing the demo utility', () => writeDemoFiles(dir))
    for (const file of files) await importFile(file)
    await callIn()
    await noteTrips()
    await database().run(sql`INSERT INTO setting (key, value) VALUES (${LOADED}, 'true'::jsonb)`)
    return 'demo'
  } finally {
    await closeDatabase()
  }
}

/** The same of the database at `url`, which need not be migrated. */
export async function holdsOwn(url: string): Promise<boolean> {
  process.env.DATABASE_URL = url
  try {
    const table = await database().row<{ there: boolean }>(sql`SELECT to_regclass('import') IS NOT NULL AS there`)
    return table?.there === true && await holdsOwnUtility()
  } finally {
    await closeDatabase()
  }
}

/** Whether somebody imported into the store of DATABASE_URL and the demo did not. What was undone or failed was meant for it too; a dry run was not. */
async function holdsOwnUtility(): Promise<boolean> {
  const imports = await database().row<{ own: boolean; demo: boolean }>(sql`
    SELECT EXISTS (SELECT FROM import WHERE actor <> ${ACTOR} AND NOT dry_run) AS own, EXISTS (SELECT FROM import WHERE actor = ${ACTOR}) AS demo`)
  return imports !== undefined && imports.own && !imports.demo
}

/** Before anything is imported, so that nothing is assessed twice. Only where nobody has set anything: a load that was broken off goes on. */
async function setPolicy(): Promise<void> {
  const { version } = await currentPolicyJson(allScope(), database())
  if (version > 1) return
  const values = policySchema.parse({ ratingWeather: { elevationM: ELEVATION_M } })
  await insertPolicy(allScope(), { values, procedureNo: null, note: 'Rated at the elevation of the lines', setBy: null, actor: ACTOR }, database())
}

async function importFile({ path: file, kind }: DemoFile): Promise<void> {
  const fileName = path.basename(file)
  await step(`Importing ${fileName}`, async (report) => {
    const source = { fileName, open: () => fs.createReadStream(file) }
    const onProgress = (phase: string, done: number) => report(`${phase}, ${formatNumber(done, 0)} ${phase === 'assessing' ? 'splices' : 'rows'}`)
    const imported = await importFromStream(allScope(), source, { kind, actor: ACTOR, onProgress })
    if (!imported.ok) throw new Error(`The demo's ${fileName} was refused: ${imported.error.message} ${imported.error.remedy}`)
  })
}

async function callIn(): Promise<void> {
  for (const notice of await listUrgent(allScope())) {
    if (notice.taken_at && notice.taken_at < CALLED_IN_BEFORE) await acknowledgeUrgent(allScope(), { noticeId: notice.notice_id }, 'control room')
  }
}

/** What the control room knows of each circuit for when it trips. */
async function noteTrips(): Promise<void> {
  for (const { circuit, ...said } of TRIPS) {
    const [found] = await circuitsCalled(allScope(), [circuit])
    const noted = found && await noteIfItTrips(allScope(), found.id, said, ACTOR)
    if (!noted?.ok) throw new Error(`The demo has no circuit ${circuit} to note anything of.`)
  }
}
