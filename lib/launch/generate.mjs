// Plain Node: it runs right after an install, before anything else can.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import fs from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { root } from './root.mjs'

const stamp = path.join(root, 'lib/store/generated/.made-from')

/** Generates the Prisma client where the schema or Prisma changed since the last time; returns whether it did. */
export function generateClient() {
  const madeFrom = clientSource()
  if (fs.existsSync(stamp) && fs.readFileSync(stamp, 'utf8') === madeFrom) return false
  const require = createRequire(path.join(root, 'package.json'))
  const cli = path.join(path.dirname(require.resolve('prisma/package.json')), 'build/index.js')
  // Prisma would download its native schema engine, which `generate` never runs: any program that exists will do, here only.
  const env = { ...process.env, PRISMA_SCHEMA_ENGINE_BINARY: process.execPath, CHECKPOINT_DISABLE: '1', PRISMA_HIDE_UPDATE_MESSAGE: '1' }
  const result = spawnSync(process.execPath, [cli, 'generate'], { cwd: root, env, encoding: 'utf8' })
  if (result.status !== 0) throw new Error(`The Prisma client could not be generated:\n${result.stdout}${result.stderr}`)
  fs.writeFileSync(stamp, madeFrom)
  return true
}

function clientSource() {
  const { version } = createRequire(path.join(root, 'package.json'))('prisma/package.json')
  return createHash('sha256').update(version).update(fs.readFileSync(path.join(root, 'prisma/schema.prisma'))).digest('hex')
}

if (process.argv[1] && fs.realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)) generateClient()
