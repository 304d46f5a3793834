import { describe, expect, it } from 'vitest'
import { CONDUCTORS, conductorByCode, type Conductor } from '@/lib/condition'

/** Resistivity at 20 °C in nΩ·m: 61.2 % IACS (ASTM), EN 50183 AL1, 6201-T81: verified. Stranding adds 2 %. */
const RESISTIVITY = { astm: 28.172, en: 28.264, alloy: 32.841 }

const calculatedOhmPerKm = ({ type, standard, areaAlMm2 }: Conductor): number => {
  const rho = type === 'AAAC' ? RESISTIVITY.alloy : standard === 'EN 50182' ? RESISTIVITY.en : RESISTIVITY.astm
  return (rho * 1.02) / areaAlMm2
}

const BY_CODE = CONDUCTORS.map((conductor) => [conductor.code, conductor] as const)

describe('the conductor table', () => {
  it('has the 113 conductors that a public source confirms, each with its source', () => {
    expect(CONDUCTORS).toHaveLength(113)
    for (const { sources } of CONDUCTORS) expect(sources.length).toBeGreaterThan(0)
    expect(CONDUCTORS.filter(({ sources }) => sources.length === 3)).toHaveLength(27)
    expect(CONDUCTORS.filter(({ sources }) => sources.length === 2)).toHaveLength(28)
    expect(CONDUCTORS.filter(({ sources }) => sources.length === 1)).toHaveLength(58)
  })

  it('has every code word once', () => {
    expect(new Set(CONDUCTORS.map(({ code }) => code.toLowerCase())).size).toBe(CONDUCTORS.length)
  })

  it.each(BY_CODE)('%s agrees with resistivity over area within 2.3 %%', (_, conductor) => {
    expect(Math.abs(conductor.rdc20OhmPerKm / calculatedOhmPerKm(conductor) - 1)).toBeLessThanOrEqual(0.023)
  })

  it.each(BY_CODE)('%s has strands that make up its areas', (_, conductor) => {
    const area = (count: number, mm = 0) => count * (Math.PI / 4) * mm * mm
    expect(Math.abs(area(conductor.strandsAl, conductor.strandAlMm) / conductor.areaAlMm2 - 1)).toBeLessThan(0.02)
    const metal = area(conductor.strandsAl, conductor.strandAlMm) + area(conductor.strandsSteel, conductor.strandSteelMm)
    expect(Math.abs(metal / conductor.areaMetalMm2 - 1)).toBeLessThan(0.02)
  })

  it('takes 75 °C by coefficient, and says so, only where no source prints it', () => {
    const byCoefficient = CONDUCTORS.filter(({ rac75Basis }) => rac75Basis === 'coefficient')
    expect(byCoefficient).toHaveLength(16)
    for (const { rac75OhmPerKm, rdc20OhmPerKm } of byCoefficient) expect(rac75OhmPerKm / rdc20OhmPerKm).toBeCloseTo(1 + 0.00403 * 55, 12)
  })

  it('carries the core effect of a single layer: Penguin at 75 °C is 19 % over its dc value (verified)', () => {
    const penguin = conductorByCode('Penguin')
    expect(penguin && penguin.rac75OhmPerKm / (penguin.rdc20OhmPerKm * 1.22165)).toBeCloseTo(1.198, 2)
  })

  it('does not repeat the misprinted ampacity of Partridge', () => {
    expect(conductorByCode('Partridge')).toMatchObject({ ampacityA: 457, note: expect.stringContaining('misprint') as string })
  })
})
