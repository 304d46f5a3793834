import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { runChecks, type Check, type Counts } from '@/lib/launch/check-run'
import { playwrightCounts, vitestCounts } from '@/lib/launch/commands/test'

const script = (code: string): string[] => ['-e', code]
const scratch = (name: string) => path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-checks-')), name)
const writing = (file: string, text: string) => `require('fs').writeFileSync(${JSON.stringify(file)}, ${JSON.stringify(text)})`
const quietly = (checks: Check[], width: number): Promise<Counts> => runChecks(checks, width, () => undefined)
const fine: Check = { name: 'fine', args: script('') }

describe('checks', () => {
  it('without a result file count as one each', async () => {
    expect(await quietly([fine, { name: 'broken', args: script('process.exit(2)') }], 2)).toEqual({ passed: 1, failed: 1 })
  })

  it('sum what their runners wrote', async () => {
    const resultFile = scratch('result.json')
    const args = script(`${writing(resultFile, '{"numTotalTests":7,"numPassedTests":5}')}; process.exit(1)`)
    expect(await quietly([fine, { name: 'tests', args, resultFile, count: vitestCounts }], 1)).toEqual({ passed: 6, failed: 2 })
  })

  it('fail where a runner breaks although no test failed', async () => {
    const resultFile = scratch('result.json')
    const args = script(`${writing(resultFile, '{"numTotalTests":5,"numPassedTests":5}')}; process.exit(1)`)
    expect(await quietly([{ name: 'tests', args, resultFile, count: vitestCounts }], 1)).toEqual({ passed: 5, failed: 1 })
  })

  it('do not run, and fail, where what they need failed', async () => {
    const marker = scratch('ran')
    const build: Check = { name: 'build', args: script('process.exit(1)') }
    const after: Check = { name: 'browser', args: script(writing(marker, '')), needs: 'build' }
    expect(await quietly([after, build], 2)).toEqual({ passed: 0, failed: 2 })
    expect(fs.existsSync(marker)).toBe(false)
  })

  it('show the output of each whole, with its counts', async () => {
    const told: string[] = []
    const loud: Check = { name: 'loud', args: script("console.log('one'); console.error('two'); process.exit(1)") }
    await runChecks([loud], 1, (text) => told.push(text))
    expect(told.join()).toMatch(/✖ loud: 0 passed, 1 failed in \d+\.\d s\none\ntwo/)
  })

  it('run although one that only went before has failed', async () => {
    const lint: Check = { name: 'lint', args: script('process.exit(1)') }
    expect(await quietly([lint, { ...fine, after: ['lint'] }], 2)).toEqual({ passed: 1, failed: 1 })
  })
})

describe('counts', () => {
  it('take a skipped test for a failed one, and one that passed at its second try for passed', () => {
    expect(playwrightCounts({ stats: { expected: 9, unexpected: 1, flaky: 1, skipped: 2 } })).toEqual({ passed: 10, failed: 3 })
    expect(vitestCounts({ numTotalTests: 3, numPassedTests: 1 })).toEqual({ passed: 1, failed: 2 })
  })
})
