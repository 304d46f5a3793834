import fs from 'node:fs'
import path from 'node:path'
import { isRunning } from './postmaster'
import { isOurs, runsAlready } from './port.mjs'

const fileOf = (dir: string) => path.join(dir, 'serving.json')

/** The process that serves the database kept in a directory, or is about to, and its port. */
interface Serving { pid: number; port: number }

/** Says to later starts that this process serves the database of `dir` on `port`. */
export function markServing(dir: string, port: number): void {
  fs.writeFileSync(fileOf(dir), JSON.stringify({ pid: process.pid, port }))
}

/** Takes back what `markServing` said. */
export function unmarkServing(dir: string): void {
  if (servingIn(dir)?.pid === process.pid) fs.rmSync(fileOf(dir), { force: true })
}

function servingIn(dir: string): Serving | null {
  try {
    const { pid, port } = JSON.parse(fs.readFileSync(fileOf(dir), 'utf8')) as Partial<Serving>
    return Number.isInteger(pid) && Number.isInteger(port) ? { pid: pid!, port: port! } : null
  } catch {
    return null
  }
}

/** A sentence where a server answers on the database of `dir` already, on whatever port; null where none does. */
export async function whyNotServe(dir: string): Promise<string | null> {
  const serving = servingIn(dir)
  return serving && isRunning(serving.pid) && await isOurs(serving.port) ? runsAlready(serving.port, dir) : null
}

/** The same of a database that another process runs, whose end would take the database away: it may not answer yet, or be no server. */
export function whyNotShare(dir: string): string {
  const serving = servingIn(dir)
  return serving && isRunning(serving.pid)
    ? runsAlready(serving.port, dir)
    : `Another command uses the database in ${dir}, and takes it away when it ends. Start this again when that has ended.`
}
