import { describe, expect, it } from 'vitest'
import { newSpliceRatio, barrelAreaMm2, barrelOnlyRatio } from '@/lib/condition/barrel'
import { conductorByCode, expectedUohm, temperatureFactor } from '@/lib/condition'
import { probabilityRatioOver, relativeUncertainty } from '@/lib/condition/ratio'
import { instrumentUncertainty } from '@/lib/condition/uncertainty'
import { expectPrinted } from './printed'

const LIMIT = { limitRel: 0.02, limitOffsetUohm: 1 }

const readingOf = (sideUohm: number, conductorUohm: number) => ({
  sideUohm, conductorUohm, uSideUohm: instrumentUncertainty(sideUohm, LIMIT), uConductorUohm: instrumentUncertainty(conductorUohm, LIMIT),
})

/** Status: computed with an independent reference; limit of error 2 % + 1 µΩ, rectangular, independent errors. */
const RATIOS = [
  {
    side: 13, conductor: 12, k: '1.083333',
    over: ['0.836399', '0.0138668', '5.70281e-10', '7.94328e-22'], u: ['0.727461', '0.715914', '0.0886126'],
  },
  {
    side: 16, conductor: 12, k: '1.333333',
    over: ['0.999935', '0.630255', '2.48056e-5', '4.05292e-16'], u: ['0.762102', '0.715914', '0.101789'],
  },
  {
    side: 30, conductor: 21.5, k: '1.395349',
    over: ['1.00000', '0.926143', '2.17288e-8', '7.32926e-33'], u: ['0.92376', '0.825611', '0.068681'],
  },
  {
    side: 120, conductor: 100, k: '1.200000',
    over: ['1.00000', '0.00040754', '2.45649e-67', '3.61768e-199'], u: ['1.96299', '1.73205', '0.028589'],
  },
] as const

describe.each(RATIOS)('$side µΩ against $conductor µΩ (computed)', ({ side, conductor, k, over, u }) => {
  const reading = readingOf(side, conductor)

  it('gives the ratio and its uncertainty', () => {
    expectPrinted(side / conductor, k)
    expectPrinted(reading.uSideUohm, u[0])
    expectPrinted(reading.uConductorUohm, u[1])
    expectPrinted(relativeUncertainty(reading, 0) * (side / conductor), u[2])
  })

  it('gives the chance over every edge', () => {
    for (const [i, edge] of [1, 1.3, 1.85, 2.75].entries()) expectPrinted(probabilityRatioOver(edge, reading, 0), over[i] ?? '')
  })
})

describe('one reading at 12 µΩ (computed)', () => {
  it('leaves a chance over 1 of at most 0.1 only up to a ratio of 0.893', () => {
    let low = 0.5
    let high = 1
    for (let i = 0; i < 60; i++) {
      const k = (low + high) / 2
      if (probabilityRatioOver(1, readingOf(12 * k, 12), 0) <= 0.1) low = k
      else high = k
    }
    expectPrinted(low, '0.893')
  })

  it('owes 5.96 % of the conductor reading to the instrument', () => {
    expectPrinted((100 * instrumentUncertainty(12, LIMIT)) / 12, '5.96')
  })
})

describe('expected conductor resistance over 0.3048 m', () => {
  // dc resistance at 20 °C from public tables (verified), products computed. Drake at 70.2 µΩ/m is from the family of tables
  // that counts the steel, Bittern at 44.6 µΩ/m from another public table than our row, 0.4 % lower.
  it.each([
    ['Drake', undefined, 0, '20.0927'], ['Drake', undefined, 20, '21.8542'], ['Drake', undefined, 40, '23.6156'],
    ['Drake', 0.0702, 0, '19.6724'], ['Drake', 0.0702, 20, '21.397'], ['Drake', 0.0702, 40, '23.1216'],
    ['Linnet', undefined, 0, '47.4995'], ['Linnet', undefined, 20, '51.6636'], ['Linnet', undefined, 40, '55.8277'],
    ['Bittern', 0.0446, 0, '12.4984'], ['Bittern', 0.0446, 20, '13.5941'], ['Bittern', 0.0446, 40, '14.6898'],
  ])('%s (%s Ω/km) at %i °C is %s µΩ', (code, otherOhmPerKm, temperatureC, printed) => {
    const conductor = conductorByCode(code)
    if (!conductor) throw new Error(`${code} is missing`)
    expectPrinted(expectedUohm({ ...conductor, rdc20OhmPerKm: otherOhmPerKm ?? conductor.rdc20OhmPerKm }, 0.3048, temperatureC), printed)
  })
})

describe('temperature coefficients', () => {
  // 0.00403 and 0.00393: IEC 60287 Table 1 (verified). 0.00360 and 0.00383: memory. Factors: computed.
  it.each([
    ['1350-H19 aluminium', 0.00403, '1.1209', '0.9194'],
    ['6201-T81 alloy', 0.0036, '1.108', '0.928'],
    ['copper', 0.00393, '1.1179', '0.9214'],
    ['hard-drawn copper', 0.00383, '1.1149', '0.9234'],
  ])('%s', (_metal, alpha20PerK, at50, at0) => {
    expectPrinted(temperatureFactor(alpha20PerK, 50), at50)
    expectPrinted(temperatureFactor(alpha20PerK, 0), at0)
  })
})

describe('a new splice (computed; dimensions from memory)', () => {
  it('has a barrel of 1137.1 mm² at 47.6 mm over 28.1 mm', () => {
    expectPrinted(barrelAreaMm2(47.6, 28.1), '1137.1')
  })

  it.each([[0, '0.3457'], [0.25, '0.5093'], [0.5, '0.6728'], [0.75, '0.8364']])(
    'with %f of the span on conductor reads %s', (bareShare, printed) => {
      expectPrinted(newSpliceRatio(bareShare, 0.34568), printed)
    },
  )

  it('read at 0.25 and 0.75 of bare conductor differs 1.64 times', () => {
    expectPrinted(newSpliceRatio(0.75, 0.34568) / newSpliceRatio(0.25, 0.34568), '1.64')
  })

  // Typical barrels from memory, middle of their ranges; the ratio of metal areas is computed.
  it.each([['Raven', 18], ['Penguin', 25], ['Linnet', 32], ['Hawk', 37], ['Drake', 47.6], ['Cardinal', 51], ['Bluebird', 72]])(
    'the barrel of %s alone lies between 0.31 and 0.44', (code, barrelOdMm) => {
      const conductor = conductorByCode(code)
      const ratio = conductor && barrelOnlyRatio(barrelOdMm, conductor)
      expect(Number(ratio?.toFixed(2))).toBeGreaterThanOrEqual(0.31)
      expect(Number(ratio?.toFixed(2))).toBeLessThanOrEqual(0.44)
    },
  )
})
