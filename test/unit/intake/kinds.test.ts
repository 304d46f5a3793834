import type { FeatureCollection } from 'geojson'
import { describe, expect, it } from 'vitest'
import { describeKind, guessMapping, IMPORT_KINDS, KINDS, templateOf } from '@/lib/intake/index'
import { FIELD_NAMES } from '@/lib/intake/mapping/field-names'
import { newDraft } from '@/lib/intake/normalise/drafts'
import { readFile } from '@/test/fixtures/intake/read-file'
import CONTRACT from '@/test/fixtures/intake/templates.json'

describe('the tables of kinds', () => {
  it.each(IMPORT_KINDS)('offer a template for %s with the headers of the contract', (kind) => {
    const { file, text } = templateOf(kind)
    if (kind !== 'lines') return expect([file, text]).toEqual([`${kind}.csv`, `${CONTRACT[kind].replaceAll(', ', ',')}\r\n`])
    const { features } = JSON.parse(text) as FeatureCollection
    expect([file, features.map(({ geometry }) => geometry.type)]).toEqual(['lines.geojson', ['LineString']])
    expect(Object.keys(features[0]?.properties ?? {}).join(', ')).toBe(CONTRACT.lines)
  })

  it.each(IMPORT_KINDS)('write every field of %s under a key that its record has', (kind) => {
    const record = newDraft(kind, { row: 1, cells: {}, raw: '' })
    for (const field of KINDS[kind].fields) expect(Object.keys(record)).toContain(field.key)
  })

  it.each(IMPORT_KINDS)('give no header to two fields of %s', (kind) => {
    const owners = new Map<string, string>()
    for (const { field, template, synonyms, weak } of FIELD_NAMES[kind]) {
      for (const name of new Set([template, ...synonyms, ...weak])) {
        expect(owners.get(name) ?? field.name, `'${name}'`).toBe(field.name)
        owners.set(name, field.name)
      }
    }
  })

  it.each(IMPORT_KINDS)('describe each field of %s for the documentation', (kind) => {
    for (const field of describeKind(kind).fields) expect(field.description, field.name).toMatch(/^.{5,}[.…]$/)
  })

  it.each(IMPORT_KINDS)('give an example of %s that is read without a remark', async (kind) => {
    const file = await readFile(describeKind(kind).example, kind, { fileName: kind === 'lines' ? 'x.geojson' : 'x.csv' })
    expect([file.outcomes.map((outcome) => outcome.state), file.issues]).toEqual([['read'], []])
    expect(file.mapping.columns.map((column) => column.field)).toEqual(KINDS[kind].exampleFields)
  })

  it('carry units and words into the description', () => {
    const { fields } = describeKind('readings')
    const side = fields.find((field) => field.name === 'side_a_uohm')
    expect(side).toMatchObject({ unit: 'uohm', unit_label: 'µΩ', units: ['µΩ', 'mΩ', 'Ω'], range: '0.5 to 50000', required: false })
    expect(side?.headers).toEqual(expect.arrayContaining(['side_a_uohm', 'r side a']))
    expect(fields.find((field) => field.name === 'band')?.words).toEqual(['lw', 'mw'])
  })

  it.each(IMPORT_KINDS)('say of %s only what is so: each header is taken for its field, alone or beside its unit', (kind) => {
    const weak = new Set(KINDS[kind].fields.flatMap((field) => (field.weakSynonyms ?? []).map((name) => name)))
    for (const field of describeKind(kind).fields) {
      const taken = (header: string) => guessMapping([header], [], kind).columns[0]?.field
      for (const header of field.headers) if (!weak.has(header)) expect(taken(header), header).toBe(field.name)
      for (const header of field.headers_with_unit) expect(taken(`${header} (${field.unit_label})`), header).toBe(field.name)
    }
  })
})
