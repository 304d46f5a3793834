import { describe, expect, it } from 'vitest'
import {
  changesBetween,
  faultsOf,
  POLICY_GROUPS,
  shownNumber,
  typedNumber,
  valueAt,
  withValue,
} from '@/components/settings/policy-draft'
import { defaultPolicy, POLICY_WORDS } from '@/lib/condition'

describe('the policy as it is edited', () => {
  it('shows every setting of the engine but the procedure number in exactly one group', () => {
    const shown = POLICY_GROUPS.flatMap((g) => g.words.map((w) => w.path))
    expect(shown.toSorted()).toEqual(
      POLICY_WORDS.map((w) => w.path)
        .filter((p) => p !== 'procedureNo')
        .toSorted(),
    )
  })

  it('reads and writes a value by its path and leaves the rest as it was', () => {
    const changed = withValue(defaultPolicy, 'edges.urgent', 1.6)
    expect(valueAt(changed, 'edges.urgent')).toBe(1.6)
    expect(valueAt(defaultPolicy, 'edges.urgent')).toBe(1.85)
    expect(changed.pRules).toBe(defaultPolicy.pRules)
  })

  it('shows shares in per cent and reads them back without a trace of the division', () => {
    expect(shownNumber(0.07, 'share')).toBe('7')
    expect(typedNumber('7', 'share')).toBe(0.07)
    expect(typedNumber('57', 'share')).toBe(0.57)
    expect(typedNumber('1,85', 'ratio')).toBe(1.85)
    expect(typedNumber('', 'ratio')).toBeNull()
    expect(typedNumber('high', 'ratio')).toBeNull()
  })

  it('finds no fault with the defaults', () => {
    expect(faultsOf(defaultPolicy).size).toBe(0)
  })

  it('says beside the field what is wrong with it', () => {
    expect(faultsOf(withValue(defaultPolicy, 'edges.urgent', null)).get('edges.urgent')).toBe('Write a number.')
    expect(faultsOf(withValue(defaultPolicy, 'edges.urgent', 0)).get('edges.urgent')).toBe('Must be over 0.')
    expect(faultsOf(withValue(defaultPolicy, 'pRules.critical', 1.2)).get('pRules.critical')).toBe('Must be 100 % or less.')
    expect(faultsOf(withValue(defaultPolicy, 'edges.urgent', 3)).get('edges')).toBe('The edges must rise from watch to critical.')
  })

  it('names what differs between two versions, with both values', () => {
    const later = withValue(withValue(defaultPolicy, 'edges.urgent', 1.6), 'pRules.critical', 0.1)
    expect(changesBetween(defaultPolicy, later).map((c) => [c.path, c.from, c.to])).toEqual([
      ['edges.urgent', '1.85', '1.6'],
      ['pRules.critical', '20 %', '10 %'],
    ])
    expect(changesBetween(defaultPolicy, defaultPolicy)).toEqual([])
  })
})
