import { spawn } from 'node:child_process'
import fs from 'node:fs'
import { seconds, warn } from './steps.mjs'

export interface Check {
  name: string
  /** Arguments for Node. */
  args: string[]
  env?: Record<string, string>
  /** Where the runner writes how many passed and failed; without one the check counts as one test. */
  resultFile?: string
  count?: (json: unknown) => Counts
  /** Names of checks that must have ended before. */
  after?: string[]
  /** Name of one that must also have passed. */
  needs?: string
}

export interface Counts { passed: number; failed: number }
type Tell = (text: string) => void

/**
 * Runs checks, at most `width` at a time, each as soon as those it waits for have ended; what needs a failed one fails too.
 * The output of each is shown whole when it ends. Returns all counts together.
 */
export async function runChecks(checks: Check[], width: number, tell: Tell = warn): Promise<Counts> {
  const results = new Map<string, Counts>()
  const waiting = [...checks]
  const running = new Map<string, Promise<void>>()
  while (waiting.length > 0 || running.size > 0) {
    const next = waiting.findIndex((c) => [...c.after ?? [], ...c.needs ? [c.needs] : []].every((name) => results.has(name)))
    const check = next >= 0 && running.size < width ? waiting.splice(next, 1)[0] : undefined
    if (!check) {
      await Promise.race(running.values())
      continue
    }
    const work = check.needs && results.get(check.needs)?.failed ? unrun(check, tell) : runCheck(check, tell)
    running.set(check.name, work.then((counts) => {
      results.set(check.name, counts)
      running.delete(check.name)
    }))
  }
  const total = (key: keyof Counts) => [...results.values()].reduce((sum, counts) => sum + counts[key], 0)
  return { passed: total('passed'), failed: total('failed') }
}

async function unrun(check: Check, tell: Tell): Promise<Counts> {
  tell(`\n✖ ${check.name}: not run, because ${check.needs} failed`)
  return { passed: 0, failed: 1 }
}

async function runCheck(check: Check, tell: Tell): Promise<Counts> {
  const started = performance.now()
  if (check.resultFile) fs.rmSync(check.resultFile, { force: true })
  const { code, output } = await run(check)
  const counts = countsOf(check, code)
  const summary = `${counts.passed} passed, ${counts.failed} failed in ${seconds(performance.now() - started)}`
  tell(`\n${counts.failed > 0 ? '✖' : '✔'} ${check.name}: ${summary}\n${output.trim()}`)
  return counts
}

function run({ args, env }: Check): Promise<{ code: number | null; output: string }> {
  const child = spawn(process.execPath, args, { env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'pipe'] })
  let output = ''
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (bytes: Buffer) => { output += bytes.toString() })
  return new Promise((resolve) => {
    child.once('error', (e) => resolve({ code: 1, output: e.message }))
    child.once('close', (code) => resolve({ code, output }))
  })
}

// A runner that fails without a failed test (or without a result at all) still counts as one failure.
function countsOf({ resultFile, count }: Check, code: number | null): Counts {
  const counts = resultFile && count && fs.existsSync(resultFile)
    ? count(JSON.parse(fs.readFileSync(resultFile, 'utf8'))) : { passed: code === 0 ? 1 : 0, failed: 0 }
  return code !== 0 && counts.failed === 0 ? { ...counts, failed: 1 } : counts
}
