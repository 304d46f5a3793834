import { assess, defaultPolicy } from '@/lib/condition'
import { reassessNetwork } from '@/lib/cases/reassess-network'
import { startEmbeddedPostgres } from '@/lib/launch/embedded-postgres'
import { migrate } from '@/lib/launch/migrate'
import { allScope } from '@/lib/store/all-scope'
import { closeDatabase } from '@/lib/store/database'
import { loadSubjects } from '@/lib/store/evidence'
import { sql } from '@/lib/store/sql/sql'
import { database, inTransaction } from '@/lib/store/transaction'
import { fillStore, MILLION as SPLICES, storeOf } from './store/million'

/**
 * Every one of 1,000,000 splices assessed anew from the store, as after a change of the policy: read, judged, written and rolled up as one
 * act. Beside it, in the same run, what the engine alone takes for the same evidence, and PostgreSQL for copying the same assessments.
 * `BENCH_SPLICES=200000` (whole thousands) takes fewer where time or disk are short; the figure that is told is that of a million.
 */
const SAMPLE = 20_000
const say = (text: string) => process.stdout.write(`${text}\n`)
const perS = (n: number, ms: number) => Math.round(n / (ms / 1000)).toLocaleString('en-US')

const server = await startEmbeddedPostgres(storeOf(SPLICES))
process.env.DATABASE_URL = server.url
try {
  await migrate(server.url)
  await fillStore(SPLICES)
  const engineMs = await engineAlone() * (SPLICES / SAMPLE)
  let mostBytes = 0
  const watch = setInterval(() => { mostBytes = Math.max(mostBytes, process.memoryUsage.rss()) }, 200)
  const wholeMs = await timed(() => reassessNetwork(allScope(), async () => undefined))
  clearInterval(watch)
  const counted = await database().row<{ n: number }>(sql`
    SELECT count(*)::int AS n FROM splice_state st JOIN assessment a ON a.id = st.assessment_id WHERE a.cause = 'policy' AND st.ratio IS NOT NULL`)
  if (counted?.n !== SPLICES) throw new Error(`${counted?.n} splices have a new ratio instead of ${SPLICES}.`)
  const copyMs = await timed(() => inTransaction(async (tx) => {
    await tx.run(sql`CREATE TEMPORARY TABLE copied (LIKE assessment INCLUDING INDEXES) ON COMMIT DROP`)
    await tx.run(sql`INSERT INTO copied SELECT a.* FROM splice_state st JOIN assessment a ON a.id = st.assessment_id`)
  }))
  await database().run(sql`DELETE FROM assessment a WHERE cause = 'policy' AND NOT EXISTS (SELECT FROM splice_state st WHERE st.assessment_id = a.id)`)
  say(`${SPLICES.toLocaleString('en-US')} splices reassessed from the store in ${(wholeMs / 1000).toFixed(0)} s: ${perS(SPLICES, wholeMs)}/s, process at most ${Math.round(mostBytes / 1e6)} MB`)
  say(`engine alone ${perS(SPLICES, engineMs)}/s (${(wholeMs / engineMs).toFixed(1)} times as long whole), the database copying its assessments ${perS(SPLICES, copyMs)}/s (${(wholeMs / copyMs).toFixed(1)} times)`)
} finally {
  await closeDatabase()
  await server.stop()
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const startedMs = performance.now()
  await work()
  return performance.now() - startedMs
}

/** Milliseconds for a sample of the same splices, already read. */
async function engineAlone(): Promise<number> {
  const ids = Array.from({ length: SAMPLE }, (_, i) => 1 + i * (SPLICES / SAMPLE))
  const subjects = (await loadSubjects(allScope(), ids, database())).map((read) => read())
  if (subjects.length !== SAMPLE || subjects.some(({ evidence }) => evidence.length !== 1)) throw new Error('The sample is not what was filled in.')
  const asOfMs = Date.now()
  const judgeAll = async () => subjects.forEach(({ facts, evidence }) => assess({ facts, evidence, policy: defaultPolicy, asOfMs }))
  await judgeAll()
  return timed(judgeAll)
}
