import fs from 'node:fs'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { buildApp, needsBuild } from '../build-app'
import { buildBasemap } from '../build-basemap'
import { DEMO_DIR, openEmbedded, startEmbedded } from '../demo-database'
import { holdsOwn, loadDemoUtility, type Holds } from '../demo-utility'
import { untilAskedToEnd } from '../ending.mjs'
import { portAsked } from '../port.mjs'
import { serve } from '../serve'
import { markServing, unmarkServing, whyNotServe, whyNotShare } from '../serving'
import { endedText, ownUtilityText, readyText } from '../demo-text'
import { say, step } from '../steps.mjs'

interface Options { dir: string; port: number; fresh: boolean }
type Stop = () => Promise<void>
/** What is served, once it is. */
interface Progress { ready: Holds | null }

/**
 * `npm run demo [-- --fresh]`: the whole product with an invented utility on http://127.0.0.1:PORT (3000), from a fresh clone.
 * A later start keeps what the user did; `--fresh` starts over. `--data DIR` keeps the database elsewhere; one that holds a utility of
 * somebody's own is served as it is.
 */
export async function run(args: string[]): Promise<number> {
  const { values } = parseArgs({
    args, options: { fresh: { type: 'boolean', default: false }, data: { type: 'string', default: DEMO_DIR } },
  })
  const options = { dir: values.data, port: portAsked(), fresh: values.fresh }
  const stops: Stop[] = []
  const progress: Progress = { ready: null }
  let isEnding = false
  const asked = untilAskedToEnd().then(() => {
    isEnding = true
    return 0
  })
  try {
    return await Promise.race([asked, start(options, stops, progress)])
  } finally {
    for (const stop of stops.reverse()) await stop()
    if (isEnding) {
      say(endedText(options.dir, progress.ready))
      process.exit(0) // a step may be under way still
    }
  }
}

async function start({ dir, port, fresh }: Options, stops: Stop[], progress: Progress): Promise<number> {
  const taken = await whyNotServe(dir)
  if (taken) throw new Error(taken)
  if (fresh) await startOver(dir)
  await step('Building the basemap', (report) => buildBasemap('public', report))
  const building = needsBuild() ? buildApp() : undefined
  building?.catch(() => undefined) // awaited below; until then the database is made ready beside it
  const database = await step('Starting the database', () => openEmbedded(dir))
  stops.push(database.stop)
  if (!database.owned) throw new Error(whyNotShare(dir))
  markServing(dir, port)
  stops.push(async () => unmarkServing(dir))
  const holds = await loadDemoUtility(path.join(dir, 'files'))
  if (building) await step('Building the pages', () => building)
  const logFile = path.join(dir, 'server.log')
  const server = await step('Starting the server', () => serve({ databaseUrl: database.url, port, logFile }))
  stops.push(server.stop)
  progress.ready = holds
  say(readyText(server.url, dir, holds))
  const lastWords = await server.ended
  throw new Error(`The server has ended by itself:\n${lastWords}\nStart it again with npm run demo. What was stored is kept, and an import that was under way begins again by itself.`)
}

/** Removes the embedded database and all that was done in it, unless another process uses it or it is no demo. */
async function startOver(dir: string): Promise<void> {
  if (!fs.existsSync(dir)) return
  const database = await startEmbedded(dir)
  if (!database.owned) throw new Error(whyNotShare(dir))
  const isOwn = await holdsOwn(database.url)
  await database.stop()
  if (isOwn) throw new Error(ownUtilityText(dir))
  fs.rmSync(dir, { recursive: true, force: true })
}
