import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import net from 'node:net'
import os from 'node:os'
import path from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { portAsked, whyNotPort } from '@/lib/launch/port.mjs'

const servers: net.Server[] = []
const sockets: net.Socket[] = []

afterEach(async () => {
  for (const socket of sockets.splice(0)) socket.destroy()
  for (const server of servers.splice(0)) await new Promise((resolve) => server.close(resolve))
})

/** A program that takes connections and does with them what `answer` does. */
function held(answer: (socket: net.Socket) => void): Promise<number> {
  const server = net.createServer((socket) => {
    sockets.push(socket)
    socket.on('error', () => undefined)
    answer(socket)
  })
  servers.push(server)
  return new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve((server.address() as net.AddressInfo).port)))
}

describe('the port asked for', () => {
  it.each([[undefined, 3000], ['', 3000], ['3100', 3100], [' 8080 ', 8080], ['65535', 65_535]])('%j is %s', (text, port) => {
    expect(portAsked(text)).toBe(port)
  })

  it.each(['abc', '0', '65536', '-1', '3000.5', '3e3', '99999'])('%s is refused in a sentence', (text) => {
    expect(() => portAsked(text)).toThrow(`PORT is '${text}', which is no port. Set it to a whole number from 1 to 65535, for example PORT=3100.`)
  })
})

describe('a port', () => {
  it('that is free is no trouble', async () => {
    const port = await held(() => undefined)
    await new Promise((resolve) => servers.pop()?.close(resolve))
    expect(await whyNotPort(port, 'npm run demo')).toBeNull()
  })

  it('whose holder never answers is told within seconds', async () => {
    const port = await held(() => undefined)
    const started = performance.now()
    expect(await whyNotPort(port, 'npm run demo')).toBe(
      `Port ${port} of 127.0.0.1 is taken by another program. Set PORT to another number, for example: PORT=3100 npm run demo`)
    expect(performance.now() - started).toBeLessThan(5000)
  })

  it('whose holder begins to answer and never ends is told within seconds', async () => {
    const port = await held((socket) => socket.write('HTTP/1.1 200 OK\r\nContent-Length: 100\r\n\r\n{'))
    expect(await whyNotPort(port, 'npm run demo')).toContain('taken by another program')
  })

  it('that we hold ourselves is told as such', async () => {
    const body = '{"status":"live"}'
    const port = await held((socket) => socket.end(`HTTP/1.1 200 OK\r\nContent-Length: ${body.length}\r\nConnection: close\r\n\r\n${body}`))
    expect(await whyNotPort(port, 'npm run demo')).toBe(
      `Spanledger runs already at http://127.0.0.1:${port}. Open it there, or stop it with Ctrl-C where it was started: what was done in it is kept.`)
  })

  it('of another program that answers everything is not taken for ours', async () => {
    const port = await held((socket) => socket.end('HTTP/1.1 200 OK\r\nContent-Length: 2\r\nConnection: close\r\n\r\nhi'))
    expect(await whyNotPort(port, 'npm run demo')).toContain('another program')
  })
})

describe('a fresh clone', () => {
  it.each(['demo', 'dev'])('hears of a wrong PORT from %s before anything is installed', async (name) => {
    expect(await refusedIn(name, 'abc')).toBe('PORT is \'abc\', which is no port. Set it to a whole number from 1 to 65535, for example PORT=3100.\n')
  })

  it.each(['demo', 'dev'])('hears from %s that its port is taken before anything is installed', async (name) => {
    const port = await held((socket) => socket.end('HTTP/1.1 200 OK\r\nContent-Length: 2\r\nConnection: close\r\n\r\nhi'))
    expect(await refusedIn(name, String(port))).toBe(`Port ${port} of 127.0.0.1 is taken by another program. Set PORT to another number, for example: PORT=3100 npm run ${name}\n`)
  })

  /** What a command says in a clone without its packages, which it leaves so. */
  async function refusedIn(name: string, port: string): Promise<string> {
    const clone = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-clone-'))
    try {
      for (const file of ['package.json', 'package-lock.json']) fs.copyFileSync(file, path.join(clone, file))
      const launch = path.join('lib', 'launch')
      fs.cpSync(launch, path.join(clone, launch), { recursive: true, filter: (file) => !file.endsWith('.ts') })
      // Whoever holds the port is in this process and has to answer meanwhile.
      const child = spawn(process.execPath, [path.join(launch, 'command.mjs'), name], { cwd: clone, env: { ...process.env, PORT: port } })
      let [printed, told] = ['', '']
      child.stdout.on('data', (bytes: Buffer) => { printed += bytes.toString() })
      child.stderr.on('data', (bytes: Buffer) => { told += bytes.toString() })
      const [status] = (await once(child, 'close')) as [number | null]
      expect([status, printed]).toEqual([1, ''])
      expect(fs.existsSync(path.join(clone, 'node_modules'))).toBe(false)
      return told
    } finally {
      fs.rmSync(clone, { recursive: true })
    }
  }
})

describe('--help', () => {
  const help = (file: string, ...args: string[]) => spawnSync(process.execPath, [path.join('lib', 'launch', file), ...args], { encoding: 'utf8' })

  it.each(['demo', 'test', 'bench', 'dev', 'build', 'import'])('of %s says what the command does and takes', (name) => {
    const { status, stdout } = help('command.mjs', name, '--help')
    expect(status).toBe(0)
    expect(stdout).toMatch(new RegExp(`^npm (run )?${name}`))
    expect(stdout.split('\n')[0]?.match(/ -- /g)?.length ?? 0).toBeLessThanOrEqual(1)
  })

  it('of start does not need a database', () => {
    const { status, stdout } = help('start.mjs', '--help')
    expect([status, stdout.startsWith('npm start')]).toEqual([0, true])
    expect(stdout).toContain('DATABASE_URL')
  })

  it('of the import goes on with what is read of each kind', () => {
    const { stdout } = help('command.mjs', 'import', '-h')
    for (const words of ['--rejected PATH', 'readings: Readings.', 'side_a_uohm', 'µΩ. Resistance over the electrode span']) expect(stdout).toContain(words)
  })

  it('is named where an option is not known', () => {
    const { status, stderr } = help('command.mjs', 'demo', '--frsh')
    expect(status).toBe(1)
    expect(stderr).toBe('Unknown option \'--frsh\'. npm run demo -- --help says what it takes.\n')
  })
})
