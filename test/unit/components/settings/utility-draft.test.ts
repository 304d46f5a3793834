import { describe, expect, it } from 'vitest'
import { settingsFaults } from '@/components/settings/utility-draft'
import type { SettingsJson } from '@/lib/contract/settings'

const settings = (over: Partial<SettingsJson> = {}): SettingsJson => ({
  unit_system: 'us',
  time_zone: 'America/Denver',
  utility_name: 'Example Cooperative',
  phase_letters: { A: 'A', B: 'B', C: 'C' },
  basemap: { kind: 'embedded' },
  information_mark: '',
  peak_periods: [{ from: '14:00', to: '20:00' }],
  ...over,
})

describe('the settings of the utility', () => {
  it('are in order as they come', () => {
    expect(settingsFaults(settings()).size).toBe(0)
  })

  it('name a time zone that does not exist', () => {
    expect(settingsFaults(settings({ time_zone: 'Mountain' })).get('time_zone')).toContain('Mountain is no time zone')
  })

  it('do not call two phases by one letter, whatever its case', () => {
    const faults = settingsFaults(settings({ phase_letters: { A: 'r', B: 'R', C: ' ' } }))
    expect([...faults.keys()].toSorted()).toEqual(['phase_letters.A', 'phase_letters.B', 'phase_letters.C'])
  })

  it('take an address or a path for the basemap and nothing else', () => {
    const fault = (url: string) => settingsFaults(settings({ basemap: { kind: 'pmtiles', url } })).get('basemap.url')
    expect(fault('https://maps.example/region.pmtiles')).toBeUndefined()
    expect(fault('/region.pmtiles')).toBeUndefined()
    expect(fault('')).toContain('Write the address')
    expect(fault('file:///region.pmtiles')).toContain('does not begin with https')
    expect(fault('region')).toContain('is no address')
  })
})
