import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { describeKind, IMPORT_KINDS, KINDS } from '@/lib/intake'
import { describeText, kindText } from '@/lib/launch/describe-text'
import { commandJson, type FileOutcome } from '@/lib/launch/import-json'
import { importOptions, rejectedPath } from '@/lib/launch/import-options'

let dir = ''
beforeAll(() => {
  dir = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-import-'))
  for (const name of ['a.csv', 'b.csv']) fs.writeFileSync(path.join(dir, name), 'x')
})
afterAll(() => fs.rmSync(dir, { recursive: true }))

const options = (...args: string[]) => importOptions(args, dir)

describe('what the import is asked for', () => {
  it('is read from where the user stands', () => {
    expect(options('a.csv', '--kind', 'readings', '--dry-run', '--rejected', 'out.csv')).toEqual({
      files: [path.join(dir, 'a.csv')], kind: 'readings', create: false, survey: undefined, dryRun: true, json: false, rejected: path.join(dir, 'out.csv'),
    })
    expect(options('--describe', 'all').describe).toEqual(IMPORT_KINDS)
  })

  it.each([
    [[], 'No file was named.'], [['gone.csv'], 'There is no file'], [['a.csv', '--kind', 'tracks'], 'There is no kind \'tracks\'. There are: lines'],
    [['--describe', 'x'], 'There is no kind \'x\'.'], [['a.csv', 'b.csv', '--rejected', 'out.csv'], 'Name a directory'],
    [['a.csv', '--rejected', 'a.csv'], 'names the file that is imported'], [['a.csv', '--rejected', 'no/out.csv'], 'There is no directory'],
    [['a.csv', '--map', 'conductor_uohm'], 'is not of the form field=column'], [['a.csv', '--map', 'ohms=R'], 'There is no field \'ohms\' of any kind of file.'],
    [['a.csv', '--kind', 'lines', '--map', 'side_a_uohm=R'], 'There is no field \'side_a_uohm\' of lines.'],
    [['a.csv', '--map', 'side_a_uohm=R', '--map', 'side_a_uohm=S'], 'names side_a_uohm twice, as \'R\' and as \'S\''], [['a.csv', '--map', 'side_a_uohm=R', '--map', 'mw=S'], 'No kind of file has all'],
    [['.'], 'is a directory. Name the files in it'], [['a.csv', '--unit', 'side_a_uohm'], 'is not of the form field=unit'], [['a.csv', '--zone', 'Boise'], '\'Boise\' is no time zone'],
    [['a.csv', '--date-order', 'american'], 'Write day-first or month-first.'], [['a.csv', '--decimal', ','], 'Write comma or point.'], [['a.csv', '--set', 'kind'], 'is not of the form field=value'],
    [['a.csv', '--set', 'kind=wedge', '--set', 'kind=other'], '--set names kind twice'], [['a.csv', '--data', ''], '--data names no directory'],
    [['--undo', 'last'], '\'last\' is no import\'s number'], [['a.csv', '--undo', '7'], 'nothing beside it but --json'], [['--undo', '7', '--kind', 'lines'], 'nothing beside it'],
  ])('%j is refused in a sentence', (args, words) => {
    expect(() => options(...args)).toThrow(words)
  })

  it('may be what single columns hold, which tells the kind where only one has such a field', () => {
    expect(options('a.csv', '--map', 'conductor_uohm=R cond = (µΩ)', '--map', 'phase=Ph')).toMatchObject({
      kind: 'readings', said: { fields: [{ field: 'conductor_uohm', column: 'R cond = (µΩ)' }, { field: 'phase', column: 'Ph' }] },
    })
    expect(options('a.csv', '--map', 'phase=Ph').kind).toBeUndefined()
  })

  it('may be a time in two columns, and no third', () => {
    const two = ['a.csv', '--map', 'taken_at=Date', '--map', 'taken_at=Time']
    expect(options(...two).said?.fields).toEqual([{ field: 'taken_at', column: 'Date' }, { field: 'taken_at', column: 'Time' }])
    expect(() => options(...two, '--map', 'taken_at=Zone')).toThrow('the date and the time of day')
    expect(() => options('a.csv', '--map', 'taken_at=Date', '--map', 'phase=Date')).toThrow('names the column \'Date\' twice')
  })

  it('may be what a file leaves open, by the names that the mapping of the page has', () => {
    expect(options('a.csv', '--unit', 'side_a_uohm=mΩ', '--unit', 'R b=mohm', '--zone', 'America/Boise', '--date-order', 'day-first', '--decimal', 'comma', '--set', 'kind=dead-end').said).toEqual({
      units: [{ of: 'side_a_uohm', unit: 'mΩ' }, { of: 'R b', unit: 'mohm' }], timeZone: 'America/Boise', dateOrder: 'dmy', decimalComma: true, values: { kind: 'dead-end' },
    })
    expect(options('a.csv').said).toBeUndefined()
  })

  it('may name the directory of the embedded database, as the demo does', () => {
    expect(options('a.csv', '--data', '.data/other').dataDir).toBe('.data/other')
    expect(options('--undo', '7', '--data', '.data/other')).toMatchObject({ undo: 7, dataDir: '.data/other' })
  })

  it('may be an import to take back', () => {
    expect(options('--undo', '7', '--json')).toMatchObject({ files: [], undo: 7, json: true })
  })

  it('may be a file of rejected rows for each file', () => {
    expect(rejectedPath(dir, '/x/a.csv')).toBe(path.join(dir, 'a.csv.rejected.csv'))
    expect(rejectedPath(path.join(dir, 'out.csv'), '/x/a.csv')).toBe(path.join(dir, 'out.csv'))
  })
})

describe('the JSON of the command', () => {
  const report = {
    import_id: 7, kind: 'readings' as const, rows: 2, read: 1, rejected: 1, already_held: 0, placed: 1, review: 0, new_splices: 0, urgent: [],
    notes: [], ignored_columns: [{ column: 'Weather', samples: ['fair'] }], issues: [], issue_count: 1,
  }
  const read: FileOutcome = { file: '/x/a.csv', dryRun: false, report, again: true, rejectedFile: '/x/out.csv' }
  const refused: FileOutcome = { file: '/x/b.csv', dryRun: true, problem: { code: 'not-text', message: 'It is a picture.', remedy: 'Drop the table.' } }

  it('is the report with the file, whether it came before, and what it left out', () => {
    expect(commandJson([read], 3)).toEqual({ exit_code: 3, file: '/x/a.csv', again: true, dry_run: false, ...report, rejected_file: '/x/out.csv' })
  })

  it('is a problem on a refusal', () => {
    expect(commandJson([refused], 1)).toEqual({
      exit_code: 1, file: '/x/b.csv', again: false, dry_run: true,
      problem: { type: 'urn:spanledger:problem:not-text', title: 'Nothing was imported', code: 'not-text', detail: 'It is a picture.', remedy: 'Drop the table.' },
    })
  })

  it('is one object for several files too', () => {
    expect(commandJson([read, refused], 1)).toMatchObject({ exit_code: 1, files: [{ file: '/x/a.csv', rows: 2 }, { file: '/x/b.csv', problem: { code: 'not-text' } }] })
  })
})

describe('--describe', () => {
  it.each(IMPORT_KINDS)('lists every field of %s with its headers', (kind) => {
    const text = describeText(kind, 'America/Denver, the utility\'s zone')
    for (const field of KINDS[kind].fields) expect(text).toContain(`\n${field.name}`)
    expect(text).toContain('headers: ')
  })

  it.each(IMPORT_KINDS)('says of %s what every row needs, by --help too, and gives an example', (kind) => {
    const [described, text] = [describeKind(kind), describeText(kind, 'UTC, the utility\'s zone').replace(/\s+/g, ' ')]
    const required = KINDS[kind].fields.filter((field) => field.required).map((field) => field.name)
    expect(text).toContain(required.length === 0 ? 'No field is needed in every row. A reading needs something measured or seen' : `Every row needs ${required.join(', ')}.`)
    expect(text).toContain(`Example: ${described.example.trim().replace(/\s+/g, ' ')}`)
    for (const field of KINDS[kind].fields) expect(kindText(described)).toMatch(new RegExp(`\\n${field.required ? '\\* ' : '  '}${field.name} `))
  })

  it('says in which zone times without an offset are read, of kinds that have times', () => {
    expect(describeText('readings', 'America/Denver, the utility\'s zone')).toContain('Times without an offset are read as America/Denver, the utility\'s zone.')
    expect(describeText('lines', 'America/Denver, the utility\'s zone')).not.toContain('America/Denver')
  })

  it('says units, words and what needs a unit beside it', () => {
    const text = describeText('readings', 'America/Denver, the utility\'s zone').replace(/\s+/g, ' ')
    expect(text).toContain('units: µΩ, mΩ, Ω; from 0.5 to 50000 in µΩ')
    expect(text).toContain('words: live-ac, dead-dc')
    expect(text).toContain('beside a unit also: a, 1,')
  })
})
