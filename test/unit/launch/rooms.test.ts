import { readFileSync } from 'node:fs'
import path from 'node:path'
import { ESLint } from 'eslint'
import { describe, expect, it } from 'vitest'
import { MAY_IMPORT } from '@/eslint.config.mjs'

const linter = new ESLint()

async function complaints(file: string, code: string): Promise<string> {
  const [result] = await linter.lintText(`${code}\n`, { filePath: path.resolve(file) })
  return (result?.messages ?? []).map((m) => m.message).join('\n')
}

describe('the linter says in a sentence', { timeout: 30_000 }, () => {
  it.each([
    ['lib/geo/x.ts', "import { page } from '@/lib/contract/contract'\nexport const a = page", 'lib/geo may import only units, result'],
    ['lib/condition/x.ts', "import fs from 'node:fs'\nexport const a = fs", 'A pure room runs in the browser too'],
    ['lib/condition/x.ts', "import { useState } from 'react'\nexport const a = useState", 'lib/condition may import of packages only zod'],
    ['lib/jobs/x.ts', "import { CONDITION_CLASSES } from '@/lib/condition'\nexport const a = CONDITION_CLASSES", 'lib/jobs may import only cases, store'],
    ['app/x.ts', "import { migrate } from '@/lib/launch/migrate'\nexport const a = migrate", 'app may import only'],
    ['lib/condition/x.ts', 'export const a = Date.now()', 'A pure room has no clock'],
    ['lib/geo/x.ts', 'export const a = new Date()', 'A pure room has no clock'],
    ['lib/condition/x.ts', 'export const a = Math.random()', 'A pure room draws no random numbers'],
    ['lib/units/x.ts', 'export const a = process.env.HOME', 'A pure room reads no environment'],
    ['lib/cases/x.ts', "import pg from 'pg'\nexport const a = pg", 'Only lib/store, lib/jobs and lib/launch talk to the database'],
    ['lib/cases/x.ts', "import { migrate } from '@/lib/launch/migrate'\nexport const a = migrate", 'lib/cases may import only'],
    ['components/ui/x.tsx', "import { pool } from '@/lib/store/database'\nexport const a = pool", 'components may import only'],
    ['lib/cases/x.ts', "import { json } from '@/app/api/http/respond'\nexport const a = json", 'Nothing imports app'],
    ['lib/store/x.ts', "export * from './scope'", 'No barrels'],
    ['app/x.ts', "console.log('here')", 'Unexpected console statement'],
    ['lib/geo/x.ts', 'export const a: any = 1', 'Unexpected any'],
    ['lib/geo/x.ts', '/* eslint-disable */\nexport const a: any = 1', 'Unexpected any'],
  ])('in %s: %s', async (file, code, sentence) => {
    expect(await complaints(file, code)).toContain(sentence)
  })

  it('nothing about what a room may do', async () => {
    expect(await complaints('lib/geo/x.ts', "import { ok } from '@/lib/result/result'\nexport const a = ok(1)")).toBe('')
    expect(await complaints('components/ui/x.ts', "import { snap } from '@/lib/geo'\nexport const a = snap")).toBe('')
    expect(await complaints('lib/geo/x.ts', "import flatbush from 'flatbush'\nexport const a = flatbush")).toBe('')
    expect(await complaints('lib/store/x.ts', "import pg from 'pg'\nexport const a = pg.Client")).toBe('')
  })

  it('what the table of DEVELOPERS.md says, room by room', () => {
    const rows = readFileSync('DEVELOPERS.md', 'utf8').matchAll(/^\| (`[^|]+`) \| [^|]+ \| ([^|]+) \|$/gm)
    const table = Object.fromEntries([...rows].flatMap(([, rooms = '', may = '']) =>
      [...rooms.matchAll(/`([^`]+)`/g)].map(([, room = '']) => [room, may === 'nothing' ? [] : may.split(', ')])))
    expect(table).toMatchObject(MAY_IMPORT)
    expect(Object.keys(table).filter((room) => !(room in MAY_IMPORT))).toEqual(['lib/launch', 'test'])
  })
})
