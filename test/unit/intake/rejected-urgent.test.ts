import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { guessMapping, hash128, normaliseRow } from '@/lib/intake'

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

  it('is not where the numbers can wait, and follows the policy', () => {
    expect(codesOf(['2310', '091', 'A', 'resistance', '16', '18', '22.1', '2026-11-31'])).toMatchObject({ state: 'rejected', found: undefined })
    const mild = { ...defaultPolicy, edges: { watch: 1, degraded: 5, urgent: 8, critical: 12 } }
    expect(codesOf(['2310', '091', 'A', 'resistance', '110', '18', '22.1', '2026-11-31'], mild).found).toBeUndefined()
  })

  it('is not where the reading is stored, which announces itself', () => {
    expect(codesOf(['2310', '091', 'A', 'resistance', '110', '18', '22.1', '2026-11-02'])).toMatchObject({ state: 'read', found: undefined })
  })
})
