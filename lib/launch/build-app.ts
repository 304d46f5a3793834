import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'

const SOURCES = [
  'app', 'components', 'lib', 'prisma', 'public', 'instrumentation.ts', 'proxy.ts', 'next.config.ts', 'package-lock.json', 'tsconfig.json',
]
const NOT_BUILT = new Set([path.join('lib', 'launch', 'commands')])

/** The server that `next build` makes, complete with the files it leaves for others to put beside it. */
const STANDALONE_DIR = path.join('.next', 'standalone')
const STAMP = path.join(STANDALONE_DIR, '.built-from')

/** True where the sources differ from those that the last complete build was made from. */
export function needsBuild(): boolean {
  return !fs.existsSync(STAMP) || fs.readFileSync(STAMP, 'utf8') !== hashSources()
}

/** Builds the pages for production and completes the standalone server. Throws with the compiler's words. */
export async function buildApp(): Promise<void> {
  const madeFrom = hashSources()
  await nextBuild()
  copyInto(path.join('.next', 'static'), path.join('.next', 'static'))
  copyInto('public', 'public')
  copyInto(path.join('prisma', 'migrations'), path.join('prisma', 'migrations'))
  fs.writeFileSync(STAMP, madeFrom)
}

function nextBuild(): Promise<void> {
  const env = { ...process.env, NODE_ENV: 'production' as const, NEXT_TELEMETRY_DISABLED: '1' }
  const cli = path.join('node_modules', 'next', 'dist', 'bin', 'next')
  const child = spawn(process.execPath, [cli, 'build'], { env, stdio: ['ignore', 'pipe', 'pipe'] })
  const end = () => child.kill()
  process.once('exit', end)
  let output = ''
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (bytes: Buffer) => { output += bytes.toString() })
  return new Promise((resolve, reject) => {
    child.once('error', reject)
    child.once('close', (code) => {
      process.off('exit', end)
      return code === 0 ? resolve() : reject(new Error(`The pages could not be built:\n${output.trim()}`))
    })
  })
}

function copyInto(from: string, to: string): void {
  const target = path.join(STANDALONE_DIR, to)
  fs.rmSync(target, { recursive: true, force: true })
  if (fs.existsSync(from)) fs.cpSync(from, target, { recursive: true })
}

function hashSources(): string {
  const hash = createHash('sha256')
  for (const file of SOURCES.flatMap(filesUnder)) hash.update(file).update('\0').update(fs.readFileSync(file)).update('\0')
  return hash.digest('hex')
}

function filesUnder(entry: string): string[] {
  const stat = fs.statSync(entry, { throwIfNoEntry: false })
  if (!stat || NOT_BUILT.has(entry)) return []
  if (stat.isFile()) return [entry]
  return fs.readdirSync(entry).sort().flatMap((name) => filesUnder(path.join(entry, name)))
}
