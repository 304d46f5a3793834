import fs from 'node:fs'
import path from 'node:path'

/** What a server wrote down about itself in its data directory: process id and port. */
export interface Postmaster {
  pid: number
  port: number
}

const fileOf = (dataDir: string) => path.join(dataDir, 'postmaster.pid')

/** Reads postmaster.pid; null where there is none. Lines per PostgreSQL's miscadmin.h: 1 pid, 4 port. */
export function readPostmaster(dataDir: string): Postmaster | null {
  try {
    const lines = fs.readFileSync(fileOf(dataDir), 'utf8').split('\n')
    return { pid: Number(lines[0]) || 0, port: Number(lines[3]) || 0 }
  } catch {
    return null
  }
}

/** PostgreSQL takes a zombie with its number for a live server, so a dead one's file must go first. */
export function forgetPostmaster(dataDir: string): void {
  fs.rmSync(fileOf(dataDir), { force: true })
}

/** True while any process has this id, whoever owns it. */
export function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0)
  } catch (e) {
    return (e as NodeJS.ErrnoException).code === 'EPERM'
  }
}

/**
 * True while this process id is a live PostgreSQL: not a zombie, and not a stranger that got the number
 * after a restart of the machine or container. Only Linux can tell a stranger; elsewhere any live process counts.
 */
export function isLivePostgres(pid: number): boolean {
  if (!isRunning(pid)) return false
  if (process.platform !== 'linux') return true
  try {
    const [, name, state] = /\((.*)\) (\S)/s.exec(fs.readFileSync(`/proc/${pid}/stat`, 'utf8')) ?? []
    return name === 'postgres' && state !== 'Z'
  } catch {
    return false
  }
}
