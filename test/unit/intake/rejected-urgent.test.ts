import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { compileMapping, guessMapping, hash128, normaliseRow } from '@/lib/intake'
import { open, rowsOf } from '@/test/fixtures/intake/read-file'

const COLUMNS = [
  'circuit', 'structure_back', 'phase', 'kind', 'side_a_uohm', 'side_b_uohm', 'conductor_uohm', 'taken_at', 'electrode_span_m',
]
const context = { timeZone: 'UTC', nowMs: Date.UTC(2026, 10, 25), hash: hash128 }

function codesOf(values: string[], policy = defaultPolicy, more: object = {}) {
  const cells = Object.fromEntries(COLUMNS.map((column, i) => [column, values[i] ?? '']))
  const raw = { row: 1, cells, raw: values.join(',') }
  const outcome = normaliseRow('readings', guessMapping(COLUMNS, [raw], 'readings'), raw, { ...context, policy, ...more })
  return { state: outcome.state, found: outcome.issues.find(({ code }) => code === 'rejected-but-urgent') }
}

/** Sides of 110 and 18 against 22.1 µΩ give 4.98 on the worse side. */
describe('a rejected row whose own numbers cannot wait', () => {
  it.each([
    ['a date that there is not', ['2310', '091', 'A', 'resistance', '110', '18', '22.1', '2026-11-31']],
    ['a side that is no number', ['2310', '091', 'A', 'resistance', '110', 'abc', '22.1', '2026-11-02']],
    ['a kind that there is not', ['2310', '091', 'A', 'full-tension splice', '110', '18', '22.1', '2026-11-02']],
  ])('is announced: %s', (_name, values) => {
    const { state, found } = codesOf(values)
    expect(state).toBe('rejected')
    expect(found).toMatchObject({ severity: 'error', value: 'critical' })
    expect(found?.message).toContain('ratio 4.98, circuit 2310, STR 091, phase A')
    expect(found?.remedy).toContain('Call the control room now')
  })

  it('takes the conductor on record where the one that was read is too high to be true', () => {
    const values = ['2310', '091', 'A', 'resistance', '80', '18', '80', '2026-11-31', '0.3048']
    expect(codesOf(values).found).toBeUndefined()
    const factsOf = (circuit: string) => (circuit === '2310' ? [{ kind: 'other', conductorCode: 'Drake', subconductors: 1 }] : [])
    const { found } = codesOf(values, defaultPolicy, { factsOf })
    // Drake has 71.7 µΩ/m at 20 °C: 22.3 µΩ over 0.3048 m at 25 °C.
    expect(found?.message).toContain('ratio 3.59')
    expect(found?.message).toContain('Provisional: the conductor reads 80.0 µΩ, 3.59 times the 22.3 µΩ of Drake')
  })

  it.each([
    ['micro-ohms', '80000'], ['milliohms of its own', '60 mohm'],
  ])('is announced as an open joint where a side is above the range, in %s', (_name, side) => {
    const { state, found } = codesOf(['2310', '091', 'A', 'resistance', side, '11', '21.8', '2026-11-02', '0.3048'])
    expect(state).toBe('rejected')
    // 50,000 / 21.8 = 2293.58.
    expect(found).toMatchObject({ value: 'critical', message: expect.stringContaining('ratio 2293.58, circuit 2310') })
    expect(found?.message).toContain('not read as it stands: side A is over 50,000 µΩ and counts as that: the joint may be open, a lead was off, or the unit is wrong.')
  })

  it.each([
    ['all three', '0.38', '0.19', '0.079', '4.81'], ['one that happens to lie in range too', '0.62', '0.19', '0.079', '7.85'],
    ['both sides happening to lie in range', '0.62', '0.55', '0.079', '7.85'],
  ])('is announced by its ratio where sides and conductor are out of range alike: %s', (_name, a, b, conductor, ratio) => {
    const { state, found } = codesOf(['2310', '091', 'A', 'resistance', a, b, conductor, '2026-11-02', '0.3048'])
    expect(state).toBe('rejected')
    expect(found?.message).toContain(`ratio ${ratio}, circuit 2310`)
    expect(found?.message).toContain('as if they were written in milliohm, and their ratio needs no unit.')
  })

  it('is not where a wrong unit makes no ratio worse', () => {
    expect(codesOf(['2310', '091', 'A', 'resistance', '0.012', '0.011', '0.0218', '2026-11-02', '0.3048'])).toMatchObject({ state: 'rejected', found: undefined })
    expect(codesOf(['2310', '091', 'A', 'resistance', '9.6 ohm', '11', '21.8', '2026-11-02', '0.3048']).found).toMatchObject({ value: 'critical' }) // it says its unit itself
  })

  it('is not where the numbers can wait, and follows the policy', () => {
    expect(codesOf(['2310', '091', 'A', 'resistance', '16', '18', '22.1', '2026-11-31'])).toMatchObject({ state: 'rejected', found: undefined })
    const mild = { ...defaultPolicy, edges: { watch: 1, degraded: 5, urgent: 8, critical: 12 } }
    expect(codesOf(['2310', '091', 'A', 'resistance', '110', '18', '22.1', '2026-11-31'], mild).found).toBeUndefined()
  })

  it('is not where the reading is stored, which announces itself', () => {
    expect(codesOf(['2310', '091', 'A', 'resistance', '110', '18', '22.1', '2026-11-02'])).toMatchObject({ state: 'read', found: undefined })
  })
})

describe('lines that a quote ran through', () => {
  async function outcomesOf(...lines: string[]) {
    const table = await open([[...COLUMNS, 'notes'].join(','), ...lines].join('\n'))
    const normaliser = compileMapping({ ...guessMapping(table.columns, [], 'readings'), kind: 'readings' }, table.columns, context)
    return (await rowsOf(table)).map((row) => normaliser.row(row))
  }
  const line = (structure: string, sideUohm: number, notes = '') => `2310,${structure},A,resistance,${sideUohm},18,22.1,2026-11-02,0.3048,${notes}`

  it('are searched for numbers that cannot wait, and the worst speaks for the row', async () => {
    const [swallowed, after] = await outcomesOf(line('090', 19, '"cut'), line('091', 55), line('092', 110), line('093', 19, 'here"'), line('094', 19))
    expect(after?.state).toBe('read')
    expect(swallowed).toMatchObject({ state: 'rejected', row: 1, alarm: { row: 1, class: 'critical', says: { structureBack: '092' } } })
    // 110 and 55 against 22.1 give 4.98 and 2.49.
    expect(swallowed?.issues.map(({ message }) => message)).toEqual([
      'Row 1, line 2: a quote opened in line 2 closes in line 5: 4 lines became one row.',
      'Row 1, line 2: critical by its own numbers (ratio 4.98, circuit 2310, STR 092, phase A), and not read for another fault. '
      + 'So line 4 says, and 1 other line of the row is urgent or critical as well.',
    ])
  })

  it('that no quote closes are too', async () => {
    const [cut] = await outcomesOf(line('091', 110, '"cut'), line('092', 19))
    expect(cut).toMatchObject({ state: 'rejected', alarm: { class: 'critical', says: { structureBack: '091' } } })
  })

  it('are no alarm where they can wait', async () => {
    const [swallowed] = await outcomesOf(line('090', 19, '"cut'), line('093', 19, 'here"'))
    expect(swallowed).toMatchObject({ state: 'rejected', issues: [{ code: 'quote-over-lines' }] })
    expect(swallowed).not.toHaveProperty('alarm')
  })
})
