import { describe, expect, it } from 'vitest'
import { conductorByCode, defaultPolicy, policySchema } from '@/lib/condition'
import type { SpliceBodies } from '@/lib/condition/body-of-splice'
import { computedEdges, edgePoints } from '@/lib/condition/edges-computed'
import { lineResistanceOf } from '@/lib/condition/heat/line-resistance'
import { expectPrinted } from '../condition/printed'
import checks from './joint_model.json'

/** Diameters in inches as the public conductor table prints them (verified); our table rounds to 0.01 mm, up to 0.04 % off. */
const INCHES: Record<string, number> = {
  Raven: 0.398, Penguin: 0.563, Linnet: 0.72, Drake: 1.107, Cardinal: 1.196, Bittern: 1.345, Bluebird: 1.762,
}

function bodiesOf(code: string, barrelFactor: number): SpliceBodies {
  const row = conductorByCode(code)
  const inches = INCHES[code]
  if (!row || inches === undefined) throw new Error(`${code} is missing`)
  const surface = { emissivity: 0.5, absorptivity: 0.5 }
  const diameterM = inches * 0.0254
  return {
    conductor: { ...surface, diameterM, resistance: lineResistanceOf(row) }, barrel: { ...surface, diameterM: barrelFactor * diameterM },
    barrelTypical: true,
  }
}

const inAir = (ambientC: number) => ({ ...policySchema.parse({ ratingWeather: { ambientC } }), version: 0 })

// Barrel 1.7 times the conductor, surfaces 0.5, 0.61 m/s, 1000 W/m². Status: computed with an independent reference.
describe.each(Object.entries(checks.thresholds_by_physics))('where the balance puts the edges of %s', (code, rows) => {
  it.each([[25, rows.Ta25], [40, rows.Ta40]] as const)('in air of %i °C', (ambientC, row) => {
    const found = edgePoints(bodiesOf(code, 1.7), 75, inAir(ambientC))
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    expectPrinted(found.value.currentA, row.I_75)
    expectPrinted(found.value.likeConductor, row.k_equal_conductor)
    expectPrinted(found.value.atLimit, row.k_93)
    expectPrinted(found.value.atEmergency, row.k_125)
  })
})

describe('a section that may run at 100 °C', () => {
  it('of Drake in air of 25 °C has a splice pass 93 °C at k 1.22 and 125 °C at 1.81 (computed)', () => {
    const found = edgePoints(bodiesOf('Drake', 1.7), 100, defaultPolicy)
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    expectPrinted(found.value.atLimit, '1.22')
    expectPrinted(found.value.atEmergency, '1.81')
  })

  it('takes these for its edges, and degraded half-way to urgent', () => {
    const found = computedEdges(bodiesOf('Drake', 1.7), 100, defaultPolicy)
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    const { watch, degraded, urgent, critical } = found.value
    expectPrinted(urgent, '1.22')
    expectPrinted(critical, '1.81')
    expectPrinted(degraded, '1.11')
    expect(watch).toBe(1)
  })
})

describe('the general edges', () => {
  it('are no milder than the balance for any of these conductors at 75 °C in air of 25 °C, but for what rounding hides', () => {
    for (const code of Object.keys(INCHES)) {
      const found = computedEdges(bodiesOf(code, 1.7), 75, defaultPolicy)
      if (!found.ok) throw new Error(JSON.stringify(found.error))
      expect(found.value.degraded).toBe(1.3)
      // Raven and Penguin, single-layer, pass 93 °C at 1.79 and 1.81, under the general 1.85.
      expect(found.value.urgent).toBeLessThanOrEqual(1.85)
      expect(found.value.urgent).toBeGreaterThan(1.78)
    }
  })

  it('hold a stricter line of the utility', () => {
    const strict = { ...policySchema.parse({ edges: { watch: 0.8, degraded: 0.9, urgent: 1.1, critical: 1.5 } }), version: 0 }
    expect(computedEdges(bodiesOf('Drake', 1.7), 100, strict)).toMatchObject({ ok: true, value: { watch: 0.8, degraded: 0.9, urgent: 1.1, critical: 1.5 } })
  })

  it('stand alone where the section runs hotter than a splice may', () => {
    expect(computedEdges(bodiesOf('Drake', 1.7), 150, defaultPolicy)).toEqual({ ok: false, error: { kind: 'splice-limit-under-section' } })
  })
})
