import { describe, expect, it } from 'vitest'
import { nextText, riskText, stateText } from '@/components/operations/watch-words'
import type { WatchState } from '@/lib/contract/watch'

const watch = (more: Partial<WatchState>): WatchState => ({
  next: 'repair', due_at: null, owner: null, taken_at: null, waits_for_call: false, called_at: null, limit_state: 'none', load_share: 1.04, load: 'peak', advised_a: 209.7, voltage_kv: null,
  radial: false, mw: null, crossing: null, ...more,
})

describe('why a splice stands where it does on the watch list', () => {
  it('names the advised figure that a load is held against where no limit is in force', () => {
    const said = (more: Partial<WatchState>) => riskText(watch(more), '2026-11-01T00:00:00Z', Date.parse('2026-11-30T00:00:00Z'))
    expect(said({})).toMatch(/^peak 104 % of 209\sA advised$/)
    // 209.7 A x 230 kV x sqrt(3) = 83.5 MVA, as engineering text books have the power of three phases; never rounded up.
    expect(said({ voltage_kv: 230 })).toMatch(/^peak 104 % of 209\sA \(83 MVA\) advised$/)
    expect(said({ limit_state: 'proposed' })).toMatch(/of 209\sA advised/)
    expect(said({ limit_state: 'in-force' })).toBe('peak 104 % of limit')
  })

  it('names the greatest flow, and what the megawatts are', () => {
    const said = riskText(watch({ load_share: 1.141, load: 'contingency', advised_a: 686.5, voltage_kv: 230, mw: 300 }), '2026-11-01T00:00:00Z', Date.parse('2026-11-30T00:00:00Z'))
    expect(said).toMatch(/^contingency 114 % of 686\sA \(273 MVA\) advised, 300 MW at stake$/)
  })

  it('says first that its class is held by a reading that was withdrawn', () => {
    expect(riskText(watch({ finding_withdrawn: true }), null, 0)).toMatch(/^held by a reading that was withdrawn, peak 104 %/)
    expect(riskText(watch({ finding_withdrawn: false }), null, 0)).not.toContain('withdrawn')
  })

  it('has the time and its zone before the words that may be cut', () => {
    const next = (of: Pick<WatchState, 'next' | 'due_at'>) => nextText(of, Date.parse('2026-11-30T23:00:00Z'), 'America/Denver').text
    expect(next({ next: 'decide-load-or-outage', due_at: '2026-12-01T01:43:00Z' })).toBe('Decide by 18:43 MST: load or outage')
    expect(next({ next: 'repair-in-outage', due_at: '2027-06-15T12:00:00Z' })).toBe('Repair by 15 Jun 2027, in an outage')
    expect(next({ next: 'decide-load-or-outage', due_at: null })).toBe('Decide load or outage')
    expect(next({ next: 'repair', due_at: '2026-11-20T12:00:00Z' })).toBe('Repair, 10 d late')
  })

  it('says once that there is no limit', () => {
    expect(stateText(watch({ called_at: '2026-11-01T00:00:00Z' }))).toBe('called')
    expect(stateText(watch({ limit_state: 'proposed' }))).toBe('no call, limit proposed')
    expect(stateText(watch({ load_share: null, advised_a: null }))).toBe('no call, no limit')
  })
})
