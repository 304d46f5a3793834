import { describe, expect, it } from 'vitest'
import { defaultPolicy, policySchema } from '@/lib/condition'
import { currentLimit, mvaOf, whatIfLimit, type LimitFacts } from '@/lib/condition/current-limit'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import { upperK } from '@/lib/condition/upper-bound'
import { expectPrinted } from '../condition/printed'
import checks from './joint_model.json'
import misc from './misc.json'

const SURFACE = { emissivity: 0.5, absorptivity: 0.5 }
const DRAKE: LimitFacts = {
  bodies: {
    conductor: { ...SURFACE, diameterM: 0.02814, resistance: { lowC: 25, lowOhmPerM: 7.283e-5, highC: 75, highOhmPerM: 8.688e-5 } },
    barrel: { ...SURFACE, diameterM: 0.0476 }, barrelTypical: false,
  },
  subconductors: 1,
}

// Drake, 47.6 mm barrel, the default rating weather. Status: computed with an independent reference.
describe('the current limit', () => {
  // Onset of annealing of 1350-H19 aluminium: verified (CMDM 2021; connectors of ANSI C119.4 are for as much).
  it('keeps a splice under 93 °C unless a utility says otherwise', () => {
    expectPrinted(defaultPolicy.limit.temperatureC, misc.annealing.onset_C)
  })

  it.each(checks.table)('with k $k is $I_lim_93C_A A in air of 25 °C and $I_lim_93C_40Camb_A A in air of 40 °C', (row) => {
    for (const [ambientC, printed] of [[25, row.I_lim_93C_A], [40, row.I_lim_93C_40Camb_A]] as const) {
      const policy = { ...policySchema.parse({ ratingWeather: { ambientC } }), version: 0 }
      const found = currentLimit(DRAKE, Number(row.k), policy)
      if (!found.ok) throw new Error(JSON.stringify(found.error))
      expectPrinted(found.value.spliceLineA, printed)
    }
  })

  it('is capped at what the conductor carries at 75 °C, 906.7756 A, where no rating is on record', () => {
    const found = currentLimit(DRAKE, 1.3, defaultPolicy)
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    expectPrinted(found.value.lineA, checks.I_rating_75C)
    expect(found.value).toMatchObject({ limitedBy: 'section', sectionFrom: 'conductor', use: 'for-operations' })
  })

  it('in another weather is no rating, whatever it comes to', () => {
    const found = whatIfLimit(DRAKE, 3, { ...ratingWeatherOf(defaultPolicy), ambientC: 0, windMS: 3 }, 93, defaultPolicy)
    expect(found).toMatchObject({ ok: true, value: { use: 'not-a-rating' } })
  })
})

describe('apparent power', () => {
  // √3 × 230 kV × 1000 A = 398.4 MVA: a textbook identity of three phases, rounded.
  it('of 1000 A at 230 kV is 398.4 MVA', () => {
    expectPrinted(mvaOf(1000, 230), '398.4')
  })
})

describe('the upper bound of a ratio', () => {
  // 1.2816 is the 90 % point of the normal distribution in every table of it.
  it('lies 1.2816 standard deviations of ln k over the middle, at the worse side', () => {
    expectPrinted(Math.log(upperK([{ mean: 0, sd: 1 }], defaultPolicy)), '1.2816')
    const sides = [{ mean: Math.log(2), sd: 0.05 }, { mean: Math.log(1.9), sd: 0.3 }]
    expect(upperK(sides, defaultPolicy)).toBeCloseTo(1.9 * Math.exp(0.3 * 1.2815515655446), 9)
  })
})
