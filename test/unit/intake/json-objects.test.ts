import { describe, expect, it } from 'vitest'
import { compileMapping, guessMapping, tableOfObjects } from '@/lib/intake/index'
import { context, rowsOf } from '@/test/fixtures/intake/read-file'

describe('objects of the API', () => {
  it('become readings under the templates\' names', async () => {
    const table = tableOfObjects([
      {
        reading_id: 'R-1', taken_at: '2026-05-04T09:26:00-06:00', lon: -112.04, lat: 47.5, side_a_uohm: 9.6, conductor_uohm: 21.3,
        rain_1h: false
      },
      { reading_id: 'R-2', kind: 'visual', findings: ['bow', 'gap'], note: null },
      { reading_id: 'R-1', side_a_uohm: 53 }, 'no object', [1], null,
    ])
    const mapping = guessMapping(table.columns, [], 'readings')
    const normaliser = compileMapping({ ...mapping, kind: 'readings' }, table.columns, context())
    const outcomes = (await rowsOf(table)).map((row) => normaliser.row(row))
    expect(outcomes.map((outcome) => [outcome.state, outcome.issues[0]?.code])).toEqual([
      ['read', undefined], ['read', undefined], ['rejected', 'duplicate-id-other-values'], ['rejected', 'not-an-object'],
      ['rejected', 'not-an-object'],
      ['rejected', 'not-an-object'],
    ])
    expect(outcomes[0]).toMatchObject({ record: { sideAUohm: 9.6, rain1h: false, kind: 'resistance' } })
    expect(outcomes[1]).toMatchObject({ record: { findings: ['bow', 'gap'], note: null } })
  })
})
