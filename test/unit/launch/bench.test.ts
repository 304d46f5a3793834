import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { benchFailure } from '@/lib/launch/commands/bench'

let dir = ''
beforeAll(() => { dir = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-bench-')) })
afterAll(() => fs.rmSync(dir, { recursive: true }))

function bench(text: string): string {
  const file = path.join(dir, 'some.bench.mjs')
  fs.writeFileSync(file, text)
  return file
}

describe('a bench', () => {
  it('that ends well is no failure', () => {
    expect(benchFailure(bench('process.exitCode = 0'), 60_000)).toBeNull()
  })

  it('that misses its goal or throws is told with its exit code', () => {
    expect(benchFailure(bench('process.exitCode = 1'), 60_000)).toBe('it ended with exit code 1; its words stand above.')
  })

  it('that does not end is ended and told', () => {
    expect(benchFailure(bench('setInterval(() => undefined, 1000)'), 3000)).toBe('it did not end within 3 s and was ended.')
  })
})
