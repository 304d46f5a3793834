import { describe, expect, it } from 'vitest'
import { CellReport, type ReadCell } from '@/lib/intake/cells/cell-report'
import { choiceReader, listReader, readBoolean } from '@/lib/intake/cells/choice'
import { identifierReader, readText } from '@/lib/intake/cells/identifier'
import { phaseReader } from '@/lib/intake/cells/phase'
import { suggest } from '@/lib/intake/cells/suggest'
import { findField, type Field, type RowIssue } from '@/lib/intake/index'
import { readFile, readingCsv, recordsOf } from '@/test/fixtures/intake/read-file'

const field = (name: string): Field => findField('readings', name) ?? findField('structures', name)!

function read(reader: ReadCell, text: string, name: string): { value: unknown; codes: string[]; issues: RowIssue[] } {
  const report = new CellReport()
  report.startRow(12)
  report.startCell(field(name), name)
  const value = reader(text, report)
  return { value, codes: report.issues.map((issue) => issue.code), issues: report.issues }
}

describe('ids', () => {
  const id = (text: string, name = 'structure_back') => read(identifierReader(field(name)), text, name)

  it.each(['045', '12/3', '45A', '0', '12-3', '-12', '1.10', 'STR 045', 'ÅS-1', '007'])('%s is kept as typed', (text) => {
    expect(id(text)).toMatchObject({ value: text, codes: [] })
  })

  it.each(['3-Dec', '12-Mar', 'Dec-03', '12 mar', '12-Mar-26', '2026-03-12', '2026-03-12 00:00:00', '3/12/2026'])(
    '%s looks like what a spreadsheet made of 12/3, and is kept with a warning', (text) => {
      expect(id(text)).toMatchObject({ value: text, codes: ['spreadsheet-date'], issues: [{ severity: 'warning', value: text }] })
    },
  )

  it('names the row, the field and what to do about a date', () => {
    expect(id('3-Dec').issues[0]).toMatchObject({
      message: 'Row 12, structure_back: \'3-Dec\' looks like a date that a spreadsheet made of a number such as 12/3.',
      remedy: 'Format the column as text in the spreadsheet, correct the number and export again.',
    })
  })

  it('warns of rounded numbers', () => {
    expect(id('1.23E+05').codes).toEqual(['spreadsheet-number'])
  })

  it('lets a survey be called by its day', () => {
    expect(id('2026-05-04', 'survey')).toMatchObject({ value: '2026-05-04', codes: [] })
  })

  it.each([
    ['=1+1', 'formula-cell'], ['@SUM(A1)', 'formula-cell'], ['+cmd', 'formula-cell'], ['-cmd(1)', 'formula-cell'],
    ['#REF!', 'spreadsheet-error'], ['x'.repeat(300), 'too-long'],
  ])(
    '%s is refused as %s', (text, code) => {
      expect(id(text)).toMatchObject({ value: undefined, codes: [code] })
    },
  )

  it('and every other cell lose the apostrophe that our own export puts before what a spreadsheet would run', async () => {
    const file = await readFile(readingCsv(
      { reading_id: '\'-45', note: '\'+12 V', lon: '\'-112.05' }, { reading_id: '\'45' }, { side_a_uohm: '\'=1+1' },
    ), 'readings')
    expect(recordsOf(file).map((record) => [record.readingKey, record.note, record.lon])).toEqual(
      [['-45', '+12 V', -112.05], ['\'45', null, -112.041733]])
    expect(file.issues).toMatchObject([{ row: 3, field: 'side_a_uohm', code: 'formula-cell', value: '=1+1' }])
  })
})

describe('remarks', () => {
  it('hold anything but a spreadsheet\'s error', () => {
    expect(read(readText, '=see sheet 2', 'note')).toMatchObject({ value: '=see sheet 2', codes: [] })
    expect(read(readText, '@Ann: check', 'note').codes).toEqual([])
    expect(read(readText, '#REF!', 'note').codes).toEqual(['spreadsheet-error'])
  })

  it('are cut where they are endless', () => {
    expect(read(readText, 'x'.repeat(30_000), 'note')).toMatchObject({ codes: ['cut-off'], issues: [{ severity: 'warning' }] })
  })
})

describe('choices', () => {
  const platform = (text: string) => read(choiceReader(field('platform')), text, 'platform')

  it.each([
    ['Line Platform', 'line_platform'], ['LINE-ROBOT', 'line_robot'], ['Drone', 'uncrewed'], ['bucket truck', 'bucket'],
    ['Heli', 'helicopter'],
  ])(
    '%s is %s', (text, word) => {
      expect(platform(text)).toMatchObject({ value: word, codes: [] })
    },
  )

  it('suggests the word that was meant', () => {
    expect(platform('helikopter').issues[0]).toEqual({
      severity: 'warning', row: 12, field: 'platform', value: 'helikopter', code: 'unknown-word',
      message: 'Row 12, platform: \'helikopter\' is not a word this column knows. Did you mean \'helicopter\'? It is left out.',
      remedy: 'Write one of: ground, bucket, ladder, line_platform, line_robot, uncrewed, helicopter.',
    })
  })

  it('suggests nothing between two', () => {
    const words = (...all: string[]) => new Map(all.map((word) => [word, word]))
    expect(suggest('lidder', words('ladder', 'lodder'))).toBeNull()
    expect(suggest('balloon', words('ground', 'bucket'))).toBeNull()
    expect(suggest('crakcs', words('cracks', 'slip'))).toBe('cracks')
    expect(suggest('crakcs', new Map([['crack', 'cracks'], ['cracks', 'cracks']]))).toBe('cracks')
  })
})

describe('findings', () => {
  const findings = (text: string) => read(listReader(field('findings')), text, 'findings')

  it('are parted by semicolons, in any spelling, each once', () => {
    expect(findings('Rust bleed; BOW ;rust-bleed;')).toMatchObject({ value: ['rust-bleed', 'bow'], codes: [] })
    expect(findings('cracked, gap')).toMatchObject({ value: ['cracks', 'gap'] })
  })

  it('reject the row where one is not understood: a finding is never lost quietly', () => {
    expect(findings('bow;crakcs')).toMatchObject({
      value: undefined,
      issues: [{
        severity: 'error', value: 'crakcs',
        message: 'Row 12, findings: \'crakcs\' is not a word this column knows. Did you mean \'cracks\'?'
      }],
    })
  })

  it('leave aliases as they are', () => {
    expect(read(listReader(field('aliases')), '45; 12/3;45', 'aliases')).toMatchObject({ value: ['45', '12/3'] })
  })
})

describe('yes and no', () => {
  it.each(
    [['yes', true], ['Y', true], ['TRUE', true], ['1', true], ['x', true], ['no', false], ['0', false], ['False', false], ['n/a', null]]
  )(
    '%s is %s', (text, value) => {
      expect(read(readBoolean, text, 'rain_1h')).toMatchObject({ value, codes: [] })
    },
  )

  it('are not guessed', () => {
    expect(read(readBoolean, 'some', 'rain_1h').codes).toEqual(['not-yes-no'])
  })
})

describe('phases', () => {
  const phase = (text: string, own?: Record<string, string>) => read(phaseReader(own), text, 'phase')

  it.each(
    [['b', 'B'], ['L2', 'B'], ['2', 'B'], ['S', 'B'], ['Phase C', 'C'], ['A-phase', 'A'], ['unknown', null], ['?', null]]
  )('%s is %s', (text, letter) => {
    expect(phase(text)).toMatchObject({ value: letter, codes: [] })
  })

  it('go by the utility\'s colours first, because B is blue in some', () => {
    const own = { Red: 'A', Yellow: 'B', Blue: 'C', R: 'A', Y: 'B', B: 'C' }
    expect(phase('yellow', own).value).toBe('B')
    expect(phase('B', own).value).toBe('C')
  })

  it('are never guessed from a colour', () => {
    expect(phase('red')).toMatchObject({ value: undefined, codes: ['phase-not-understood'], issues: [{ severity: 'warning' }] })
  })
})
