import { spawn } from 'node:child_process'
import { once } from 'node:events'
import path from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { describe, expect, it } from 'vitest'

const script = path.resolve('test', 'fixtures', 'launch', 'waits-to-end.mjs')
// As npm does it: a Node process that runs the script through a shell, which stays in between.
const npm = `require('child_process').spawn('sh', ['-c', process.argv[1]], { stdio: 'inherit' })`

async function start(env: Record<string, string>) {
  const starter = spawn(process.execPath, ['-e', npm, `"${process.execPath}" "${script}"; true`], {
    env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'inherit'],
  })
  const [printed] = (await once(starter.stdout, 'data')) as [Buffer]
  return { starter, pid: Number(printed.toString()) }
}

async function isAliveAfter(pid: number, ms: number): Promise<boolean> {
  for (const deadline = Date.now() + ms; Date.now() < deadline; await sleep(50)) {
    try {
      process.kill(pid, 0)
    } catch {
      return false
    }
  }
  return true
}

describe('a command that waits to end', () => {
  it.each(['SIGINT', 'SIGTERM', 'SIGHUP'] as const)('ends by %s', async (signal) => {
    const { pid } = await start({})
    process.kill(pid, signal)
    expect(await isAliveAfter(pid, 10_000)).toBe(false)
  })

  it('ends when npm is killed, although its shell stays (Linux tells; elsewhere it is ended here)', async () => {
    const { starter, pid } = await start({ npm_lifecycle_event: 'demo' })
    starter.kill('SIGKILL')
    if (process.platform !== 'linux') process.kill(pid, 'SIGTERM')
    expect(await isAliveAfter(pid, 10_000)).toBe(false)
  })

  it('stays when the shell that started it by hand goes away', async () => {
    const { starter, pid } = await start({ npm_lifecycle_event: '' })
    starter.kill('SIGKILL')
    expect(await isAliveAfter(pid, 1_500)).toBe(true)
    process.kill(pid, 'SIGTERM')
  })
})
