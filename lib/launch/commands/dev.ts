import { spawn } from 'node:child_process'
import path from 'node:path'
import { buildBasemap } from '../build-basemap'
import { DEMO_DIR, openEmbedded } from '../demo-database'
import { loadDemoUtility } from '../demo-utility'
import { untilAskedToEnd } from '../ending.mjs'
import { portAsked } from '../port.mjs'
import { step } from '../steps.mjs'

/** `npm run dev`: pages that follow the sources as they change, on DATABASE_URL or the demo's database. */
export async function run(): Promise<number> {
  const port = portAsked()
  await step('Building the basemap', (report) => buildBasemap('public', report))
  const database = process.env.DATABASE_URL ? null : await openEmbedded(DEMO_DIR)
  if (database) await loadDemoUtility(path.join(DEMO_DIR, 'files'))
  const args = [path.join('node_modules', 'next', 'dist', 'bin', 'next'), 'dev', '-H', '127.0.0.1', '-p', String(port)]
  const child = spawn(process.execPath, args, { stdio: 'inherit' })
  const exited = new Promise<number>((resolve) => child.once('exit', (code) => resolve(code ?? 0)))
  await Promise.race([exited, untilAskedToEnd()])
  child.kill('SIGTERM')
  await exited
  await database?.stop()
  return 0
}
