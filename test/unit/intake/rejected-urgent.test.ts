import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { guessMapping, hash128, normaliseRow } from '@/lib/intake'

const COLUMNS = ['circuit', 'structure_back', 'phase', 'kind', 'side_a_uohm', 'side_b_uohm', 'conductor_uohm', 'taken_at']
const context = { timeZone: 'UTC', nowMs: Date.UTC(2026, 10, 25), hash: hash128 }

function codesOf(values: string[], policy = defaultPolicy) {
  const cells = Object.fromEntries(COLUMNS.map((column, i) => [column, values[i] ?? '']))
  const raw = { row: 1, cells, raw: values.join(',') }
  const outcome = normaliseRow('readings', guessMapping(COLUMNS, [raw], 'readings'), raw, { ...context, policy })
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

  it('is not where the numbers can wait, and follows the policy', () => {
    expect(codesOf(['2310', '091', 'A', 'resistance', '16', '18', '22.1', '2026-11-31'])).toMatchObject({ state: 'rejected', found: undefined })
    const mild = { ...defaultPolicy, edges: { watch: 1, degraded: 5, urgent: 8, critical: 12 } }
    expect(codesOf(['2310', '091', 'A', 'resistance', '110', '18', '22.1', '2026-11-31'], mild).found).toBeUndefined()
  })

  it('is not where the reading is stored, which announces itself', () => {
    expect(codesOf(['2310', '091', 'A', 'resistance', '110', '18', '22.1', '2026-11-02'])).toMatchObject({ state: 'read', found: undefined })
  })
})
