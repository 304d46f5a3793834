import { execFile } from 'node:child_process'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { promisify } from 'node:util'
import { describe, expect, it } from 'vitest'

const run = promisify(execFile)
const STEPS = pathToFileURL(path.resolve('lib/launch/steps.mjs')).href

/** What a command prints about a step of so many milliseconds, where nobody sits before a terminal. */
const printed = async (workMs: number, everyMs: number, ending = '') => {
  const script = `import { step } from '${STEPS}'
    await step('Installing', async (report) => { report('12 packages'); await new Promise((done) => setTimeout(done, ${workMs})); ${ending} }, ${everyMs}).catch(() => undefined)`
  return (await run(process.execPath, ['--input-type=module', '-e', script])).stderr
}

describe('a step of a command', () => {
  it('that is short takes one line', async () => {
    expect(await printed(10, 60_000)).toMatch(/^ {2}Installing … \d\.\d s\n$/)
  })

  it('that is long says how long it has taken so far, and how far it is, line by line', async () => {
    const lines = (await printed(1_250, 500)).split('\n')
    expect(lines[0]).toBe('  Installing …')
    expect(lines.slice(1, -2).length).toBeGreaterThan(0)
    for (const line of lines.slice(1, -2)) expect(line).toMatch(/^ {2}Installing … 12 packages, \d+ s so far$/)
    expect(lines.at(-2)).toMatch(/^ {2}Installing … \d+\.\d s$/)
  })

  it('that fails after a while says so on a line of its own', async () => {
    expect((await printed(300, 200, "throw new Error('x')")).trimEnd().split('\n').at(-1)).toBe('  Installing … failed')
  })
})
