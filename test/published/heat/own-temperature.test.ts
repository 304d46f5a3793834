import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { heatedWith } from '@/lib/condition/loading/line-joint'
import { ownTemperature } from '@/lib/condition/loading/own-temperature'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import { expectPrinted } from '../condition/printed'
import checks from './joint_model.json'

/** Drake with a barrel of 47.6 mm. Status of every figure: computed with an independent reference. */
const bodies = {
  conductor: {
    diameterM: 0.02814, emissivity: 0.5, absorptivity: 0.5, resistance: { lowC: 25, lowOhmPerM: 7.283e-5, highC: 75, highOhmPerM: 8.688e-5 },
  },
  barrel: { diameterM: 0.0476, emissivity: 0.5, absorptivity: 0.5 }, barrelTypical: false,
}
const weather = ratingWeatherOf(defaultPolicy)
const RATING_A = Number(checks.I_rating_75C)

describe('the temperature of a splice on its sheet', () => {
  it.each(checks.table.map((row) => [row.k, row.T_joint_C]))('at the rating of its section in rating weather is that of the table: k %s', (k, printed) => {
    const found = ownTemperature(heatedWith(bodies, 1, Number(k), Number(k)), RATING_A, '', weather)
    if (!found.ok) throw new Error(found.error)
    expect(found.value.lineA).toBe(RATING_A)
    expectPrinted(found.value.believedC ?? NaN, printed)
    expect(found.value.upperC).toBe(found.value.believedC)
  })

  it('is none where it comes to no rest, and never a number beyond the balance', () => {
    const found = ownTemperature(heatedWith(bodies, 1, 40, 60), RATING_A, '', weather)
    expect(found).toMatchObject({ ok: true, value: { believedC: null, upperC: null } })
  })

  it('says why it cannot be computed and whom to ask', () => {
    const why = (of: Parameters<typeof ownTemperature>) => {
      const found = ownTemperature(...of)
      return found.ok ? '' : found.error
    }
    const joint = heatedWith(bodies, 1, 2, 2)
    expect(why([joint, null, 'no load of the section is known. Ask the control room', weather])).toBe('no load of the section is known. Ask the control room')
    expect(why([null, 300, '', weather])).toBe('no usable ratio has been read. Until it is, ask the rating engineer')
    expect(why(['no-conductor', 300, '', weather])).toBe('the conductor of the section is not on record. Ask line engineering for its code word')
    expect(why([joint, 5000, '', weather])).toContain('outside what the heat balance covers')
  })
})
