import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { degreesText as loadingDegrees } from '@/components/loading/words'
import { degreesText, OwnTemperature } from '@/components/splice/own-temperature'
import type { LastLoad } from '@/lib/contract/contract'
import type { JointTemperaturesJson } from '@/lib/contract/temperatures'

const at = (over: object = {}) => ({ line_a: 256, believed_c: 64, upper_c: 66.4, ambient_c: 26, wind_m_s: 1.2, weather_at: '2020-07-20T18:49:00.000Z', ...over })
const LOAD: LastLoad = { current_a: 256, taken_at: '2026-10-29T12:00:00.000Z', quality: null }
const text = (given: Omit<JointTemperaturesJson, 'upper_share'>, load: LastLoad | null = LOAD) =>
  renderToStaticMarkup(createElement(OwnTemperature, { of: { upper_share: 0.9, ...given }, load, limitC: 93, system: 'metric', timeZone: 'UTC' })).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ').trim()

describe('the temperature of the splice', () => {
  it('stands beside its limit, with load and weather, and is marked as no rating', () => {
    const told = text({ at_load: at(), no_at_load: null, at_rating: at({ line_a: 355, believed_c: 300, upper_c: null, weather_at: null }), no_at_rating: null, edges_at_a: null, conductor_at_rating_c: null })
    expect(told).toMatch(/Splice now 64 °C believed, 9 times in 10 under 66 °C at 256 A, in the weather noted 20 Jul 2020 18:49 UTC \(air 26\.0 °C, wind 1\.2 m\/s\)\. Not a rating\./)
    expect(told).toMatch(/At section rating 300 °C, and perhaps no steady state below 400 °C at 355 A in rating weather ?; not to pass 93 °C ?\./)
  })

  it('is not called now where load or weather are old: then it is that of rating weather, with the day of the load', () => {
    const told = text({ at_load: at({ weather_at: null }), no_at_load: null, at_rating: null, no_at_rating: 'Not known.', edges_at_a: null, conductor_at_rating_c: null })
    expect(told).toMatch(/^At its last load 64 °C believed, 9 times in 10 under 66 °C at 256 A, the load of 29 Oct 2026, in rating weather\. Not its temperature now\./)
    expect(told).not.toContain('Splice now')
  })

  it('says once why none can be computed', () => {
    const why = 'Cannot be computed: the conductor of the section is not on record. Ask line engineering for its code word.'
    expect(text({ at_load: null, no_at_load: why, at_rating: null, no_at_rating: why, edges_at_a: null, conductor_at_rating_c: null })).toBe(
      'Its temperature: cannot be computed: the conductor of the section is not on record. Ask line engineering for its code word.')
    const noLoad = 'Cannot be computed: no load of the section is known. Ask the control room.'
    expect(text({ at_load: null, no_at_load: noLoad, at_rating: at({ weather_at: null }), no_at_rating: null, edges_at_a: null, conductor_at_rating_c: null }, null)).toMatch(/^At section rating 64 °C/)
    const outside = 'Cannot be computed: load or weather lie outside what the heat balance covers. Ask the rating engineer.'
    expect(text({ at_load: null, no_at_load: outside, at_rating: at({ weather_at: null }), no_at_rating: null, edges_at_a: null, conductor_at_rating_c: null })).toContain(`At its last load ${outside}`)
  })

  it('is no number where there is no steady state', () => {
    expect(degreesText({ believed_c: null, upper_c: null }, 0.9, 'us')).toMatch(/^no steady state below 752 ?°F$/)
    expect(degreesText({ believed_c: 80.1, upper_c: 80.4 }, 0.9, 'metric')).toMatch(/^80 ?°C$/)
  })

  it('is converted first and rounded once, so that it reads the same on every screen', () => {
    // 126.39 °C is 259.50 °F; rounded first, 126 °C would read 259 °F.
    expect(degreesText({ believed_c: 126.39, upper_c: 126.39 }, 0.9, 'us')).toBe('260 °F')
    expect(loadingDegrees(126.39, 'us')).toBe('260 °F')
  })
})
