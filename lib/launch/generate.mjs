// Generates the Prisma client when the schema has changed since the last time.
// Plain Node: it runs after an install, before anything else can.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import fs from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { fileURLToPath } from 'node:url'

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..')
const output = path.join(root, 'lib/store/generated')
const stamp = path.join(output, '.made-from')

/** Returns true where it generated the client, false where the client was up to date. */
export function generateClient() {
  const require = createRequire(path.join(root, 'package.json'))
  const version = require('prisma/package.json').version
  const madeFrom = createHash('sha256').update(version).update(fs.readFileSync(path.join(root, 'prisma/schema.prisma'))).digest('hex')
  if (fs.existsSync(stamp) && fs.readFileSync(stamp, 'utf8') === madeFrom) return false
  const cli = path.join(path.dirname(require.resolve('prisma/package.json')), 'build/index.js')
  // Prisma would download its native schema engine, which `generate` never runs: any program that exists will do, here only.
  const env = { ...process.env, PRISMA_SCHEMA_ENGINE_BINARY: process.execPath, CHECKPOINT_DISABLE: '1', PRISMA_HIDE_UPDATE_MESSAGE: '1' }
  const result = spawnSync(process.execPath, [cli, 'generate'], { cwd: root, env, encoding: 'utf8' })
  if (result.status !== 0) throw new Error(`The Prisma client could not be generated:\n${result.stdout}${result.stderr}`)
  fs.writeFileSync(stamp, madeFrom)
  return true
}

if (process.argv[1] && fs.realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)) generateClient()
