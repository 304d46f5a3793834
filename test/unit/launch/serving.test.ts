import fs from 'node:fs'
import http from 'node:http'
import type { AddressInfo } from 'node:net'
import os from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { markServing, unmarkServing, whyNotServe, whyNotShare } from '@/lib/launch/serving'

let dir = ''
let port = 0
const ours = http.createServer((_, answer) => answer.end('{"status":"live"}'))

beforeAll(async () => {
  dir = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-serving-'))
  await new Promise<void>((resolve) => ours.listen(0, '127.0.0.1', resolve))
  port = (ours.address() as AddressInfo).port
})
afterAll(() => {
  ours.close()
  fs.rmSync(dir, { recursive: true, force: true })
})

describe('a database that is served already', () => {
  it('is told by its address, whatever port was asked for', async () => {
    expect(await whyNotServe(dir)).toBeNull()
    markServing(dir, port)
    for (const why of [await whyNotServe(dir), whyNotShare(dir)]) expect(why).toContain(`Spanledger runs already at http://127.0.0.1:${port}, on the database in ${dir}.`)
  })

  it('is free again once that has ended, however it ended', async () => {
    fs.writeFileSync(path.join(dir, 'serving.json'), JSON.stringify({ pid: 2 ** 22 - 3, port })) // killed: nothing was taken back
    expect(await whyNotServe(dir)).toBeNull()
    markServing(dir, 9) // its number went to another process, and nothing of ours answers there
    expect(await whyNotServe(dir)).toBeNull()
    unmarkServing(dir)
    expect(fs.existsSync(path.join(dir, 'serving.json'))).toBe(false)
    fs.writeFileSync(path.join(dir, 'serving.json'), '{')
    expect(await whyNotServe(dir)).toBeNull()
  })

  it('says of a command that is no server that it takes the database away', () => {
    expect(whyNotShare(dir)).toContain('takes it away when it ends')
  })
})
