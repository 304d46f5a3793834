import { describe, expect, it } from 'vitest'
import {
  changesBetween,
  faultsOf,
  POLICY_GROUPS,
  shownNumber,
  typedNumber,
  valueAt,
  withTyped,
  withValue,
} from '@/components/settings/policy-draft'
import { shownIn } from '@/components/settings/policy-units'
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
    expect(shownNumber(0.07, 'share', 'us')).toBe('7')
    expect(typedNumber('7', 'share', 'us')).toBe(0.07)
    expect(typedNumber('57', 'share', 'us')).toBe(0.57)
    expect(typedNumber('1,85', 'ratio', 'us')).toBe(1.85)
    expect(typedNumber('', 'ratio', 'us')).toBeNull()
    expect(typedNumber('high', 'ratio', 'us')).toBeNull()
  })

  it('shows temperatures, their differences, wind and lengths in the reader’s units and keeps SI', () => {
    expect(shownNumber(100, '°C', 'us')).toBe('212')
    expect(typedNumber('212', '°C', 'us')).toBe(100)
    expect(shownNumber(3, 'K', 'us')).toBe('5.4')
    expect(typedNumber('5.4', 'K', 'us')).toBe(3)
    expect(shownNumber(4, 'm/s', 'us')).toBe('8.948')
    expect(typedNumber('0.1', 'm', 'us')).toBe(0.03048)
    expect(shownNumber(3, 'K', 'metric')).toBe('3')
    expect(shownIn('K', 'metric').label).toBe('°C')
    const hotter = withValue(defaultPolicy, 'infrared.hotOverConductorK', 5)
    expect(changesBetween(defaultPolicy, hotter, 'us')).toMatchObject([{ from: '5.4 °F', to: '9 °F' }])
    expect(faultsOf(withValue(defaultPolicy, 'reference.assumedConductorC', 300), 'us').get('reference.assumedConductorC'))
      .toBe('Must be 392 °F or less.')
  })

  it('finds no fault with the defaults', () => {
    expect(faultsOf(defaultPolicy, 'us').size).toBe(0)
  })

  it('says beside the field what is wrong with it', () => {
    expect(faultsOf(withValue(defaultPolicy, 'edges.urgent', null), 'us').get('edges.urgent')).toBe('Write a number.')
    expect(faultsOf(withValue(defaultPolicy, 'edges.urgent', 0), 'us').get('edges.urgent')).toBe('Must be over 0.')
    expect(faultsOf(withValue(defaultPolicy, 'pRules.critical', 1.2), 'us').get('pRules.critical')).toBe('Must be 100% or less.')
    expect(faultsOf(withValue(defaultPolicy, 'edges.urgent', 3), 'us').get('edges')).toBe('The edges must rise from watch to critical.')
  })

  it('names what differs between two versions, with both values', () => {
    const later = withValue(withValue(defaultPolicy, 'edges.urgent', 1.6), 'pRules.critical', 0.1)
    expect(changesBetween(defaultPolicy, later, 'us').map((c) => [c.path, c.from, c.to])).toEqual([
      ['edges.urgent', '1.85', '1.6'],
      ['pRules.critical', '20%', '10%'],
    ])
    expect(changesBetween(defaultPolicy, defaultPolicy, 'us')).toEqual([])
  })
})

describe('a value typed as it was shown', () => {
  const path = 'ratingWeather.windMS'
  const retyped = typedNumber(shownNumber(defaultPolicy.ratingWeather.windMS, 'm/s', 'us'), 'm/s', 'us')

  it('is no change: it keeps the stored value to the last bit, and nothing is listed', () => {
    // 0.61 m/s are 1.3645 mph, shown as 1.365 mph, which is 0.61021 m/s.
    expect(retyped).not.toBe(defaultPolicy.ratingWeather.windMS)
    expect(withTyped(defaultPolicy, defaultPolicy, path, retyped, 'us')).toEqual(defaultPolicy)
    expect(changesBetween(defaultPolicy, withValue(defaultPolicy, path, retyped), 'us')).toEqual([])
  })

  it('is one where it reads otherwise', () => {
    const faster = withTyped(defaultPolicy, defaultPolicy, path, typedNumber('4', 'm/s', 'us'), 'us')
    expect(changesBetween(defaultPolicy, faster, 'us')).toEqual([expect.objectContaining({ path, from: '1.365 mph', to: '4 mph' })])
    expect(changesBetween(defaultPolicy, withValue(defaultPolicy, path, retyped), 'metric')).toHaveLength(1)
  })
})
