import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { degreesText, OwnTemperature } from '@/components/splice/own-temperature'
import type { JointTemperaturesJson } from '@/lib/contract/temperatures'

const at = (over: object = {}) => ({ line_a: 256, believed_c: 64, upper_c: 66.4, ambient_c: 26, wind_m_s: 1.2, weather_at: '2020-07-20T18:49:00.000Z', ...over })
const text = (of: JointTemperaturesJson, loadKnown = true) =>
  renderToStaticMarkup(createElement(OwnTemperature, { of, loadKnown, limitC: 93, system: 'metric', timeZone: 'UTC' })).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ').trim()

describe('the temperature of the splice', () => {
  it('stands beside its limit, with load and weather, and is marked as no rating', () => {
    const told = text({ now: at(), no_now: null, at_rating: at({ line_a: 355, believed_c: 300, upper_c: null, weather_at: null }), no_at_rating: null })
    expect(told).toMatch(/Splice now 64 °C, at most 66 °C at 256 A, in the weather noted on 20 Jul 2020 \(air 26\.0 °C, wind 1\.2 m\/s\)\. Not a rating\./)
    expect(told).toMatch(/At section rating 300 °C, and perhaps no steady state below 400 °C at 355 A in rating weather; not to pass 93 °C\./)
  })

  it('says once why none can be computed', () => {
    const why = 'Cannot be computed: the conductor of the section is not on record. Ask line engineering for its code word.'
    expect(text({ now: null, no_now: why, at_rating: null, no_at_rating: why })).toBe('Its temperature: cannot be computed: the conductor of the section is not on record. Ask line engineering for its code word.')
    const noLoad = 'Cannot be computed: no load of the section is known. Ask the control room.'
    expect(text({ now: null, no_now: noLoad, at_rating: at({ weather_at: null }), no_at_rating: null }, false)).toMatch(/^At section rating 64 °C/)
    const outside = 'Cannot be computed: load or weather lie outside what the heat balance covers. Ask the rating engineer.'
    expect(text({ now: null, no_now: outside, at_rating: at({ weather_at: null }), no_at_rating: null })).toContain(`Splice now ${outside}`)
  })

  it('is no number where there is no steady state', () => {
    expect(degreesText({ believed_c: null, upper_c: null }, 'us')).toMatch(/^no steady state below 752 ?°F$/)
    expect(degreesText({ believed_c: 80.1, upper_c: 80.4 }, 'metric')).toMatch(/^80 ?°C$/)
  })
})
