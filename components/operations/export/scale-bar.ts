import type { UnitSystem } from '@/lib/units/format'

const UNITS: Record<UnitSystem, readonly { m: number; name: string }[]> = {
  metric: [{ m: 1_000, name: 'km' }, { m: 1, name: 'm' }],
  us: [{ m: 1_609.344, name: 'mi' }, { m: 0.3048, name: 'ft' }], // exact: NIST Handbook 44, appendix C
}

export interface ScaleBar { widthPx: number; text: string }

/** The longest bar of 1, 2 or 5 times a power of ten of the reader's unit that is not wider than `mostPx`. */
export function scaleBar(metresPerPx: number, system: UnitSystem, mostPx: number): ScaleBar {
  const mostM = metresPerPx * mostPx
  const unit = UNITS[system].find(({ m }) => m <= mostM) ?? UNITS[system][1]!
  const most = mostM / unit.m
  const power = 10 ** Math.floor(Math.log10(most))
  const count = ([5, 2, 1].find((step) => step * power <= most) ?? 1) * power
  return { widthPx: (count * unit.m) / metresPerPx, text: `${Number(count.toPrecision(1)).toLocaleString('en-US')} ${unit.name}` }
}
