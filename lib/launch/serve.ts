import { fork, type ChildProcess } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'

const READY_LIMIT_MS = 60_000
const STOP_LIMIT_MS = 8_000

export interface Server {
  url: string
  /** Resolves when the server has ended by itself, with its last words. */
  ended: Promise<string>
  stop(): Promise<void>
}

/** Starts the built server as a child that ends with this process however it ends. Throws with its last words where it does not come up. */
export async function serve(options: { databaseUrl: string; port: number; logFile: string }): Promise<Server> {
  const log = fs.openSync(options.logFile, 'w', 0o600)
  const child = fork(path.join('lib', 'launch', 'start.mjs'), {
    env: { ...process.env, DATABASE_URL: options.databaseUrl, PORT: String(options.port), HOST: '127.0.0.1', NODE_ENV: 'production' },
    execArgv: [],
    stdio: ['ignore', log, log, 'ipc'],
  })
  fs.closeSync(log)
  const lastWords = () => fs.readFileSync(options.logFile, 'utf8').trim().split('\n').slice(-12).join('\n')
  const ended = new Promise<string>((resolve) => child.once('exit', () => resolve(lastWords())))
  const url = `http://127.0.0.1:${options.port}`
  for (const deadline = Date.now() + READY_LIMIT_MS; !(await answersReady(url));) {
    if (hasEnded(child) || Date.now() > deadline) {
      child.kill('SIGKILL')
      throw new Error(`The server did not come up:\n${lastWords()}`)
    }
    await sleep(50)
  }
  return { url, ended, stop: () => stop(child) }
}

const hasEnded = (child: ChildProcess) => child.exitCode !== null || child.signalCode !== null

async function answersReady(url: string): Promise<boolean> {
  try {
    return (await fetch(`${url}/api/health/ready`, { signal: AbortSignal.timeout(5_000) })).ok
  } catch {
    return false
  }
}

async function stop(child: ChildProcess): Promise<void> {
  if (hasEnded(child)) return
  const exited = new Promise((resolve) => child.once('exit', resolve))
  child.kill('SIGTERM')
  const late = setTimeout(() => child.kill('SIGKILL'), STOP_LIMIT_MS)
  await exited
  clearTimeout(late)
}
