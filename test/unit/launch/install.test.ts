import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { needsInstall, requireNode } from '@/lib/launch/install.mjs'

let dir = ''
beforeEach(() => { dir = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-install-')) })
afterEach(() => fs.rmSync(dir, { recursive: true, force: true }))

function write(file: string, packages: Record<string, object>): void {
  fs.mkdirSync(path.dirname(path.join(dir, file)), { recursive: true })
  fs.writeFileSync(path.join(dir, file), JSON.stringify({ packages }))
}
const lock = (packages: Record<string, object>) => write('package-lock.json', { '': { name: 'x' }, ...packages })
const installed = (packages: Record<string, object>) => write('node_modules/.package-lock.json', packages)

describe('an install', () => {
  it('is needed in a fresh clone', () => {
    lock({ 'node_modules/a': { version: '1.0.0' } })
    expect(needsInstall(dir)).toBe(true)
  })

  it('is not needed where every package of the lock file is there', () => {
    lock({ 'node_modules/a': { version: '1.0.0' }, 'node_modules/other-system': { version: '1.0.0', optional: true } })
    installed({ 'node_modules/a': { version: '1.0.0' } })
    expect(needsInstall(dir)).toBe(false)
  })

  it('is needed after the lock file moved to another version', () => {
    lock({ 'node_modules/a': { version: '1.1.0' } })
    installed({ 'node_modules/a': { version: '1.0.0' } })
    expect(needsInstall(dir)).toBe(true)
  })
})

describe('the Node that runs a command', () => {
  it.each(['20.19.0', '20.20.2', '24.1.0'])('may be %s', (version) => expect(() => requireNode(version)).not.toThrow())
  it.each(['18.20.0', '20.18.9'])('is named with a remedy when it is %s', (version) => {
    expect(() => requireNode(version)).toThrow(new RegExp(`this is ${version}.*Install`))
  })
})
