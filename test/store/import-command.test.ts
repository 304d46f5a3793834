import { execFile } from 'node:child_process'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, reading } from './utility'

useDatabase()

let dir = ''
beforeAll(async () => {
  await buildNetwork()
  dir = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-command-'))
  const { conductor_uohm: conductor, ...row } = reading('c-1', 450)
  fs.writeFileSync(path.join(dir, 'survey.csv'), csv([{ ...row, 'R cond': conductor ?? '' }]))
})
afterAll(() => fs.rmSync(dir, { recursive: true }))

/** The command itself, as npm runs it. */
const command = (...args: string[]) => new Promise<{ exitCode: number; stdout: string; stderr: string }>((resolve) => {
  const child = execFile(process.execPath, ['lib/launch/command.mjs', 'import', ...args], { env: { ...process.env, INIT_CWD: dir } }, (_, stdout, stderr) => (
    resolve({ exitCode: child.exitCode ?? -1, stdout, stderr })))
})

const live = async () => (await database().row<{ n: number }>(sql`SELECT count(*) AS n FROM reading WHERE NOT withdrawn`))?.n

describe('npm run import', { timeout: 120_000 }, () => {
  it('reads a column as --map says, and takes the import back by --undo as one act', async () => {
    const imported = await command('survey.csv', '--map', 'conductor_uohm=R cond', '--json')
    const report = JSON.parse(imported.stdout) as { import_id: number }
    expect([imported.exitCode, report]).toEqual([0, expect.objectContaining({ kind: 'readings', rows: 1, read: 1, placed: 1, ignored_columns: [] })])
    expect((await database().row<{ uohm: number }>(sql`SELECT conductor_uohm AS uohm FROM reading`))?.uohm).toBeCloseTo(21.8, 6)

    const undone = await command('--undo', String(report.import_id))
    expect([undone.exitCode, undone.stdout.trim()]).toEqual([0, `Import ${report.import_id} is undone: 1 reading withdrawn, 1 splice removed.`])
    expect(await live()).toBe(0)

    const again = await command('--undo', String(report.import_id), '--json')
    expect([again.exitCode, JSON.parse(again.stdout)]).toEqual([1, expect.objectContaining({
      exit_code: 1, import_id: report.import_id, problem: expect.objectContaining({ code: 'wrong-state', detail: expect.stringMatching(/\.$/), remedy: expect.stringMatching(/\.$/) }),
    })])
  })

  it('says which database it writes to, without its password', async () => {
    const { stderr } = await command('survey.csv', '--dry-run')
    const { host, pathname, password } = new URL(process.env.DATABASE_URL ?? '')
    expect(stderr).toContain(`Database: ${pathname.slice(1)}${host === '' ? '' : ` at ${host}`}, by DATABASE_URL`)
    if (password !== '') expect(stderr).not.toContain(`:${password}@`)
  })

  it('takes poles for structures, and asks where a file might be anything with places', async () => {
    fs.writeFileSync(path.join(dir, 'places.csv'), 'Circuit,Longitude,Latitude,ID\nS1,-110,45,9\n')
    fs.writeFileSync(path.join(dir, 'poles.csv'), 'Circ,Pole Nbr,GPS X,GPS Y,Pole Type\nS1,9001,-110.001,45.001,tangent\n')
    const splices = async () => (await database().row<{ n: number }>(sql`SELECT count(*) AS n FROM splice`))?.n
    const before = await splices()
    const poles = JSON.parse((await command('poles.csv', '--dry-run', '--json')).stdout) as { kind: string }
    expect(poles.kind).toBe('structures')
    const places = await command('places.csv', '--json')
    expect(JSON.stringify(JSON.parse(places.stdout))).not.toContain('"kind":"splices"')
    expect(await splices()).toBe(before)
  })

  it('never takes readings for splices: it names the columns that speak, the call that cannot wait, and how to say what they are', async () => {
    fs.writeFileSync(path.join(dir, 'odd.csv'), 'Ckt,From pole,To pole,Ph,Value P (uohm),Value Q (uohm),Value R (uohm)\nS1,S2,S3,A,12,13,12\nS1,S3,S4,A,30,18,12\n')
    const splices = async () => (await database().row<{ n: number }>(sql`SELECT count(*) AS n FROM splice`))?.n
    const before = await splices()
    for (const survey of [[], ['--survey', 'Feet survey']]) {
      const { exitCode, stderr } = await command('odd.csv', ...survey)
      expect(exitCode).toBe(1)
      expect(stderr).toContain('Call the control room now: by numbers that were not understood row 2 is urgent or critical, by a ratio of 2.50 (30 against 12 µΩ stand in \'Value P (uohm)\' and \'Value R (uohm)\', which are not read).')
      expect(stderr).toContain("The columns 'Value P (uohm)', 'Value Q (uohm)' and 'Value R (uohm)' were not understood and speak for readings.")
      expect(stderr).toContain('--kind KIND says what the rows are, --map field=column what a column holds')
    }
    fs.writeFileSync(path.join(dir, 'plain.csv'), 'Ckt,From pole,To pole,Ph\nS1,S2,S3,A\n')
    const surveyed = await command('plain.csv', '--survey', 'Feet survey')
    expect([surveyed.exitCode, surveyed.stderr]).toEqual([1, expect.stringContaining("A survey is named, 'Feet survey', and splices have none.")])
    expect(await splices()).toBe(before)
  })

  it('reads a column in the unit that --unit says, and names the database that the readings went to', async () => {
    fs.writeFileSync(path.join(dir, 'milliohm.csv'), fs.readFileSync(path.join(dir, 'survey.csv'), 'utf8').replace(/R cond/, 'Rc').replace(/21\.8/, '0.0218'))
    const said = ['--map', 'conductor_uohm=Rc', '--unit', 'conductor_uohm=mohm', '--zone', 'America/Boise', '--json']
    const { exitCode, stdout } = await command('milliohm.csv', ...said)
    const report = JSON.parse(stdout) as { import_id: number; database: string; read: number }
    expect([exitCode, report.read, report.database]).toEqual([0, 1, expect.stringContaining('by DATABASE_URL')])
    expect((await database().row<{ uohm: number }>(sql`SELECT conductor_uohm AS uohm FROM reading WHERE NOT withdrawn`))?.uohm).toBeCloseTo(21.8, 6)
    expect((await command('--undo', String(report.import_id))).exitCode).toBe(0)
    const refused = await command('milliohm.csv', '--map', 'conductor_uohm=Rc', '--unit', 'phase=mohm')
    expect([refused.exitCode, refused.stderr]).toEqual([1, expect.stringContaining('phase has no unit.')])
  })

  it('says of a CSV of lines that lines are GeoJSON, whether or not it is told the kind', async () => {
    fs.writeFileSync(path.join(dir, 'wkt.csv'), 'circuit,wkt\nC-1,"LINESTRING(-110 45, -110.01 45.01)"\n')
    for (const kind of [[], ['--kind', 'lines']]) {
      const { exitCode, stderr } = await command('wkt.csv', ...kind)
      expect([exitCode, stderr]).toEqual([1, expect.stringContaining('Lines are read from GeoJSON only, and this file is a CSV with their course as text in its cells.')])
      expect(stderr).not.toContain('splices')
    }
  })

  it('imports into the embedded database of --data, and says where it made an empty one', async () => {
    const at = path.join(dir, 'other')
    fs.writeFileSync(path.join(dir, 'poles.csv'), 'Circ,Pole Nbr,GPS X,GPS Y,Pole Type\nS1,9001,-110.001,45.001,tangent\n')
    const before = await database().row(sql`SELECT count(*) AS n FROM import`)
    const mistyped = await command('poles.csv', '--data', at, '--dry-run')
    expect([mistyped.exitCode, mistyped.stderr]).toEqual([1, expect.stringContaining(`There is no database in ${at}. Check the directory; npm run demo -- --data ${at} makes it`)])
    expect(fs.existsSync(at)).toBe(false)
    const first = await command('poles.csv', '--data', at, '--dry-run', '--create')
    expect(first.stderr).toContain(`Database: embedded, in ${at}, by --data`)
    expect(first.stderr).toContain(`There was no database in ${at}: an empty one is made. Lines and structures come first`)
    const second = await command('poles.csv', '--data', at, '--dry-run')
    expect(second.stderr).not.toContain('There was no database')
    expect(await database().row(sql`SELECT count(*) AS n FROM import`)).toEqual(before)
  })

  it('names a column of --map that the file does not have', async () => {
    const refused = await command('survey.csv', '--map', 'conductor_uohm=Rc')
    expect(refused.exitCode).toBe(1)
    expect(refused.stderr).toContain("The file has no column 'Rc'. Its columns are 'reading_id', ")
    expect(refused.stderr).toContain('--map field=column')
    expect(await live()).toBe(0)
  })
})
