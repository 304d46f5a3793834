import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { openApiDocument } from '@/app/api/openapi.json/document'
import { readingRows } from '@/lib/contract/api'
import { KINDS, describeKind } from '@/lib/intake'

interface RowSchema { description: string; properties: Record<string, Record<string, unknown>>; required?: string[]; additionalProperties: { description: string } }

const posted = openApiDocument().paths?.['/api/v1/readings']?.post?.requestBody as unknown as { content: Record<string, { schema: { items: RowSchema } }> }
const body = posted.content['application/json']!.schema
const row = body.items
// As JSON Schema 2020-12 is read by zod, which knows nothing of how this one was made.
const read = z.fromJSONSchema(body as never)

describe('what the document says of a posted reading', () => {
  it('lists every field that is read, with a type, a sentence and whether it is required', () => {
    expect(Object.keys(row.properties)).toEqual(KINDS.readings.fields.map(({ name }) => name))
    for (const [name, field] of Object.entries(row.properties)) {
      expect(field, name).toMatchObject({ type: expect.arrayContaining(['string', 'null']), description: expect.stringMatching(/required\.$/i) })
    }
    expect(row.required ?? []).toEqual(describeKind('readings').required)
  })

  it('has the unit and the bounds of a figure, and the words of a choice', () => {
    expect(row.properties.side_a_uohm).toMatchObject({ type: ['number', 'string', 'null'], 'x-unit': 'µΩ', minimum: 0.5, maximum: 50_000, examples: [9.6] })
    expect(row.properties.side_a_uohm?.description).toMatch(/In µΩ\. One at least of side_a_uohm, side_b_uohm, splice_temp_c, findings is required\.$/)
    expect(row.properties.position_of?.description).toMatch(/One of: target, platform\. Not required\.$/)
  })

  it('says what becomes of a key that is no field', () => {
    expect(row.additionalProperties.description).toContain('ignored_columns')
  })

  it('takes rows as programs send them, and refuses what no field can be', () => {
    const good = { reading_id: 7, taken_at: '2026-05-04T09:26:00-06:00', phase: 'B', lon: -113.9, lat: '47.0', side_a_uohm: '>2000', conductor_uohm: 21.3, findings: ['slip'], weather: 'fair' }
    for (const reader of [read, readingRows]) expect(reader.safeParse([good]).success).toBe(true)
    for (const bad of [{ lon: -200 }, { side_a_uohm: false }, { rain_1h: 3 }]) expect(read.safeParse([{ ...good, ...bad }]).success, JSON.stringify(bad)).toBe(false)
    for (const reader of [read, readingRows]) expect(reader.safeParse([]).success).toBe(false)
  })

  it('gives examples that it would take itself', () => {
    const examples = Object.fromEntries(Object.entries(row.properties).map(([name, { examples }]) => [name, (examples as unknown[])[0]]))
    expect(read.safeParse([examples]).success).toBe(true)
    expect(readingRows.safeParse([examples]).success).toBe(true)
  })
})
