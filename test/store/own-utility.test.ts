import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { holdsOwn, loadDemoUtility } from '@/lib/launch/demo-utility'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { importText, linesFile } from './utility'

useDatabase()

const files = path.join(os.tmpdir(), `spanledger-own-${process.pid}`)
afterAll(() => fs.rmSync(files, { recursive: true, force: true }))

const url = () => process.env.DATABASE_URL ?? ''
const count = async (table: 'import' | 'setting') =>
  (await database().row<{ n: number }>(table === 'import' ? sql`SELECT count(*) AS n FROM import` : sql`SELECT count(*) AS n FROM setting`))?.n

describe('a store that the demo is started on', () => {
  it('is nobody\'s own while nothing but a dry run was done in it, nor before it is migrated', async () => {
    await importText('lines', linesFile(), { dryRun: true })
    expect(await holdsOwn(url())).toBe(false)
    const unmigrated = new URL(url())
    unmigrated.pathname = '/postgres'
    const own = url()
    expect(await holdsOwn(unmigrated.href)).toBe(false)
    process.env.DATABASE_URL = own
  })

  it('stays as it is where somebody imported their own lines: no setting, no policy, no file of the demo', async () => {
    await importText('lines', linesFile())
    const before = [await count('import'), await count('setting')]
    expect(await loadDemoUtility(files)).toBe('own')
    expect([await count('import'), await count('setting')]).toEqual(before)
    expect(fs.existsSync(files)).toBe(false)
    expect(await holdsOwn(url())).toBe(true)
  })

  it('is the demo\'s where the demo imported too, so that a load that was broken off goes on', async () => {
    await importText('lines', linesFile(), { actor: 'demo', survey: 'another' })
    expect(await holdsOwn(url())).toBe(false)
  })
})
