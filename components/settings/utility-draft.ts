import type { SettingsJson } from '@/lib/contract/settings'
import { isTimeZone } from '@/lib/units/time'

/** What is wrong with the settings as typed, by field, in sentences. */
export function settingsFaults(s: SettingsJson): Map<string, string> {
  const faults = new Map<string, string>()
  if (!isTimeZone(s.time_zone))
    faults.set('time_zone', `${s.time_zone === '' ? 'Nothing' : s.time_zone} is no time zone. Write one like America/Denver.`)
  const letters = Object.entries(s.phase_letters)
  for (const [phase, letter] of letters) {
    if (letter.trim() === '') faults.set(`phase_letters.${phase}`, 'Write what your utility calls it.')
    else if (letters.some(([other, l]) => other !== phase && l.trim().toUpperCase() === letter.trim().toUpperCase())) {
      faults.set(`phase_letters.${phase}`, `${letter} is used for two phases.`)
    }
  }
  for (const [i, period] of s.peak_periods.entries()) {
    for (const end of ['from', 'to'] as const) {
      if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(period[end])) faults.set(`peak_periods.${i}.${end}`, 'Write hours and minutes, such as 14:00.')
    }
    if (period.from === period.to) faults.set(`peak_periods.${i}.to`, 'It ends when it begins. Write another end, or take the period out.')
  }
  if (s.basemap.kind !== 'embedded') {
    const wrong = addressFault(s.basemap.url)
    if (wrong !== null) faults.set('basemap.url', wrong)
  }
  return faults
}

function addressFault(url: string): string | null {
  if (url.trim() === '') return 'Write the address, or choose the embedded basemap.'
  if (url.startsWith('/')) return null
  try {
    const { protocol } = new URL(url)
    return protocol === 'https:' || protocol === 'http:' ? null : `${url} does not begin with https:// or http://.`
  } catch {
    return `${url} is no address. Write one like https://maps.example/region.pmtiles, or a path on this server.`
  }
}

/** Phase names that utilities use, to choose with one press. */
export const LETTER_SETS: readonly { label: string; letters: SettingsJson['phase_letters'] }[] = [
  { label: 'A B C', letters: { A: 'A', B: 'B', C: 'C' } },
  { label: '1 2 3', letters: { A: '1', B: '2', C: '3' } },
  { label: 'L1 L2 L3', letters: { A: 'L1', B: 'L2', C: 'L3' } },
  { label: 'R S T', letters: { A: 'R', B: 'S', C: 'T' } },
]
