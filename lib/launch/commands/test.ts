import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { z } from 'zod'
import { runChecks, type Check, type Counts } from '../check-run'
import { CHROMIUM_REMEDY, findChromium, hasChromiumShell, installChromium, mayInstallChromium } from '../chromium'
import { say, step, warn } from '../steps.mjs'

const RESULTS = 'test-results'
const bin = (...parts: string[]) => path.join('node_modules', ...parts)

/**
 * `npm test`: sets up what is missing, then lint, types, unit, published, property, store and browser tests.
 * Its last line is `N passed, N failed` over all of them. Exit code 0 where nothing failed.
 */
export async function run(): Promise<number> {
  fs.mkdirSync(RESULTS, { recursive: true })
  const chromium = await setUpChromium()
  const counts = await runChecks(checks(chromium), Math.min(4, os.availableParallelism()))
  if (!chromium) warn(`\n${CHROMIUM_REMEDY}`)
  const failed = counts.failed + (chromium ? 0 : 1)
  say(`\n${counts.passed} passed, ${failed} failed`)
  return failed === 0 ? 0 : 1
}

async function setUpChromium(): Promise<string | undefined> {
  if (!hasChromiumShell() && mayInstallChromium()) {
    try {
      await step('Installing Chromium', installChromium)
    } catch (e) {
      if (!findChromium()) throw e
      warn(`The tests run in ${findChromium()}, which takes them longer.`)
    }
  }
  return findChromium()
}

// The longest chain first: the browser tests wait for the build.
function checks(chromium: string | undefined): Check[] {
  const browserResult = path.join(RESULTS, 'browser.json')
  return [
    { name: 'build', args: [path.join('lib', 'launch', 'command.mjs'), 'build', '--changed'] },
    vitest('pure'),
    { name: 'types', args: [bin('typescript', 'bin', 'tsc'), '--noEmit', '-p', '.'], after: ['build'] }, // the build writes some
    { name: 'lint', args: [bin('eslint', 'bin', 'eslint.js'), '.', '--max-warnings', '0'] },
    vitest('store'),
    ...(chromium ? [{
      name: 'browser',
      args: [bin('@playwright', 'test', 'cli.js'), 'test'],
      env: { NO_COLOR: '1', CHROMIUM_PATH: chromium, PLAYWRIGHT_JSON_OUTPUT_FILE: browserResult },
      resultFile: browserResult,
      count: playwrightCounts,
      needs: 'build',
      after: ['types', 'lint', 'pure', 'store'], // alone: a page drawn in software needs both cores
    }] : []),
  ]
}

function vitest(project: string): Check {
  const resultFile = path.join(RESULTS, `${project}.json`)
  return {
    name: project,
    args: [
      bin('vitest', 'vitest.mjs'), 'run', '--project', project, '--silent=passed-only', '--reporter=default', '--reporter=json',
      `--outputFile.json=${resultFile}`,
    ],
    env: { NO_COLOR: '1' },
    resultFile,
    count: vitestCounts,
  }
}

/** Tests that did not run count as failed: nothing here is skipped on purpose. */
export function vitestCounts(json: unknown): Counts {
  const { numTotalTests, numPassedTests } = z.object({ numTotalTests: z.number(), numPassedTests: z.number() }).parse(json)
  return { passed: numPassedTests, failed: numTotalTests - numPassedTests }
}

/** What passed at its second try passed; Playwright's own report names it as flaky. Skipped counts as failed here too. */
export function playwrightCounts(json: unknown): Counts {
  const count = z.number()
  const { stats } = z.object({ stats: z.object({ expected: count, unexpected: count, flaky: count, skipped: count }) }).parse(json)
  return { passed: stats.expected + stats.flaky, failed: stats.unexpected + stats.skipped }
}
