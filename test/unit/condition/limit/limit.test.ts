import { describe, expect, it } from 'vitest'
import { defaultPolicy, type SpliceFacts } from '@/lib/condition'
import { contextFor } from '@/lib/condition/context'
import { currentLimit, limitFactsOf, offeredTemperaturesC, whatIfLimit, type LimitFacts } from '@/lib/condition/current-limit'
import { flowsAgainst, reviewDueMs, standingOf } from '@/lib/condition/limit-lapse'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'

const DAY_MS = 86_400_000
const DRAKE: SpliceFacts = { kind: 'full-tension splice', subconductors: 1, conductorCode: 'Drake', barrelOdMm: 47.6, ratingA: 900 }

function factsOf(over: Partial<SpliceFacts> = {}, voltageKv?: number): LimitFacts {
  const found = limitFactsOf(contextFor({ ...DRAKE, ...over }, defaultPolicy), voltageKv)
  if (!found.ok) throw new Error(JSON.stringify(found.error))
  return found.value
}
const weather = ratingWeatherOf(defaultPolicy)

describe('the one figure for operations', () => {
  it('is line current per phase and MVA, with the subconductor beside it', () => {
    const found = currentLimit(factsOf({ subconductors: 2, ratingA: 1800 }, 345), 2.5, defaultPolicy)
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    const { lineA, mva, spliceSubconductorA, spliceLineA } = found.value
    expect(spliceLineA).toBeCloseTo(2 * spliceSubconductorA, 9)
    expect(lineA).toBe(spliceLineA)
    expect(mva).toBeCloseTo((Math.sqrt(3) * 345 * lineA) / 1000, 9)
    expect(found.value).toMatchObject({ use: 'for-operations', limitedBy: 'splice', spliceC: 93, weather })
  })

  it('never passes the rating of the section', () => {
    expect(currentLimit(factsOf(), 0.7, defaultPolicy)).toMatchObject({ ok: true, value: { lineA: 900, limitedBy: 'section', sectionFrom: 'rating' } })
    const cold = whatIfLimit(factsOf(), 0.7, { ...weather, ambientC: -20, windMS: 8 }, 93, defaultPolicy)
    expect(cold).toMatchObject({ ok: true, value: { lineA: 900, use: 'not-a-rating' } })
  })

  it('has no MVA where the voltage is not known', () => {
    expect(currentLimit(factsOf(), 2, defaultPolicy)).toMatchObject({ ok: true, value: { mva: null } })
  })

  it('is 0 where sun and air alone heat the splice over the temperature', () => {
    const hot = whatIfLimit(factsOf(), 2, { ambientC: 60, windMS: 0, windAngleDeg: 90, sunWPerM2: 1500, elevationM: 0 }, 75, defaultPolicy)
    expect(hot).toMatchObject({ ok: true, value: { lineA: 0, limitedBy: 'splice' } })
  })

  it('is not worked out without conductor or ratio, or for a ratio that nothing has', () => {
    expect(limitFactsOf(contextFor({ ...DRAKE, conductorCode: undefined }, defaultPolicy))).toEqual({ ok: false, error: { kind: 'no-conductor' } })
    expect(currentLimit(factsOf(), NaN, defaultPolicy)).toEqual({ ok: false, error: { kind: 'no-ratio' } })
    expect(currentLimit(factsOf(), 500, defaultPolicy)).toMatchObject({ ok: false, error: { quantity: 'k', value: 500 } })
  })
})

describe('the emergency temperature', () => {
  it('is offered up to a ratio of 1.3 and refused over it', () => {
    expect(offeredTemperaturesC(1.3, defaultPolicy)).toEqual([75, 93, 100, 125])
    expect(offeredTemperaturesC(1.31, defaultPolicy)).toEqual([75, 93, 100])
    expect(whatIfLimit(factsOf(), 1.3, weather, 125, defaultPolicy).ok).toBe(true)
    expect(whatIfLimit(factsOf(), 1.31, weather, 125, defaultPolicy)).toEqual({
      ok: false, error: { kind: 'temperature-not-offered', k: 1.31, upToK: 1.3, temperatureC: 125 },
    })
  })
})

describe('a limit in force', () => {
  const limit = { lineA: 600, reviewByMs: 30 * DAY_MS }

  it('holds until its review is due', () => {
    expect(reviewDueMs(0, defaultPolicy)).toBe(30 * DAY_MS)
    expect(standingOf(limit, 30 * DAY_MS - 1, 600)).toEqual({ kind: 'in-force' })
    expect(standingOf(limit, 30 * DAY_MS, 600)).toEqual({ kind: 'ask-engineer', why: 'review-due', sinceMs: 30 * DAY_MS })
  })

  it('lapses at the next load above it', () => {
    expect(standingOf(limit, 0, 601)).toEqual({ kind: 'ask-engineer', why: 'load-above', greatestA: 601 })
    expect(standingOf(limit, 0)).toEqual({ kind: 'in-force' })
  })

  it('is compared with the flows that are known', () => {
    expect(flowsAgainst(600, { presentA: 500, postContingencyA: 800 })).toEqual([
      { flow: 'presentA', currentA: 500, overA: -100 }, { flow: 'postContingencyA', currentA: 800, overA: 200 },
    ])
  })
})
