import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { say } from '../steps.mjs'

const DIR = path.join('test', 'bench')
const nameOf = (file: string) => file.replace('.bench.ts', '')

/** `npm run bench [-- NAME...]`: each bench alone, one after another; big databases are built once and stay under .bench/. */
export async function run(args: string[]): Promise<number> {
  const files = fs.readdirSync(DIR).filter((file) => file.endsWith('.bench.ts')).sort()
  const chosen = args.length === 0 ? files : files.filter((file) => args.some((name) => file.includes(name)))
  if (chosen.length === 0) throw new Error(`No bench is called ${args.join(' or ')}. There are: ${files.map(nameOf).join(', ')}.`)
  let failures = 0
  for (const file of chosen) {
    say(`\n${nameOf(file)}`)
    const { status } = spawnSync(process.execPath, ['--expose-gc', '--import', 'tsx', path.join(DIR, file)], { stdio: 'inherit' })
    if (status !== 0) failures++
  }
  return failures === 0 ? 0 : 1
}
