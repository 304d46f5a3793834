import { convert, unitLabel, type Unit } from '@/lib/units/convert'

export interface OhmUnit {
  key: Extract<Unit, 'uohm' | 'mohm' | 'ohm'>
  label: string
  /** In µΩ. */
  uohm: number
  word: string
  /** Code of a number that would be in range in it. */
  looksLike: string
}

const ohmUnit = (key: OhmUnit['key'], word: string): OhmUnit =>
  ({ key, label: unitLabel(key), uohm: convert(1, key, 'uohm'), word, looksLike: `looks-like-${word}` })

/** The units in which splices are measured, from small to large. */
export const OHM_UNITS: readonly OhmUnit[] = [ohmUnit('uohm', 'microohm'), ohmUnit('mohm', 'milliohm'), ohmUnit('ohm', 'ohm')]

/** What splices and conductors read over an electrode span, failing ones too, µΩ (limits of sense, no source). */
const USUAL_UOHM = { least: 1, most: 1_000 }

/** Of a number that is out of range in one unit, another one in which it would be usual, and its value then; null where there is none. */
export function otherOhmUnit(uohm: number, unit: string | undefined): { unit: OhmUnit; uohm: number } | null {
  const own = OHM_UNITS.find(({ key }) => key === (unit ?? 'uohm'))
  if (!own) return null
  const others = OHM_UNITS.filter((one) => one !== own).map((one) => ({ unit: one, uohm: Number((uohm / own.uohm * one.uohm).toPrecision(6)) }))
  return others.find((one) => one.uohm >= USUAL_UOHM.least && one.uohm <= USUAL_UOHM.most) ?? null
}
