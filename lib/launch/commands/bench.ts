import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { say, warn } from '../steps.mjs'

const DIR = path.join('test', 'bench')
/** The longest bench fills a store for minutes; one that takes so long waits for something that does not come. */
const LIMIT_MINUTES = 60
const nameOf = (file: string) => file.replace('.bench.ts', '')

/**
 * `npm run bench -- [NAME...]`: each bench alone, one after another; big databases are built once and stay under .bench/. One that fails,
 * misses its goal or does not end is named at the end, and the exit code is 1.
 */
export async function run(args: string[]): Promise<number> {
  const files = fs.readdirSync(DIR).filter((file) => file.endsWith('.bench.ts')).sort()
  const chosen = args.length === 0 ? files : files.filter((file) => args.some((name) => file.includes(name)))
  if (chosen.length === 0) throw new Error(`No bench is called ${args.join(' or ')}. There are: ${files.map(nameOf).join(', ')}.`)
  const failures: string[] = []
  for (const file of chosen) {
    say(`\n${nameOf(file)}`)
    const failure = benchFailure(path.join(DIR, file), LIMIT_MINUTES * 60_000)
    if (failure) failures.push(`${nameOf(file)}: ${failure}`)
  }
  if (failures.length > 0) warn(`\n${failures.length} of ${chosen.length} benches failed.\n${failures.join('\n')}`)
  return failures.length === 0 ? 0 : 1
}

/** Runs one bench to its end. Why it failed, in a sentence; null where it did not. */
export function benchFailure(file: string, limitMs: number): string | null {
  const { status, signal, error } = spawnSync(process.execPath, ['--expose-gc', '--import', 'tsx', file], {
    stdio: 'inherit', timeout: limitMs, killSignal: 'SIGKILL',
  })
  if (status === 0) return null
  if ((error as NodeJS.ErrnoException | undefined)?.code === 'ETIMEDOUT') return `it did not end within ${Math.round(limitMs / 1000)} s and was ended.`
  if (error) return `it could not be run: ${error.message}.`
  return status === null ? `it was ended by ${signal}.` : `it ended with exit code ${status}; its words stand above.`
}
