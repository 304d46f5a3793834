import { CONDUCTOR_NOTES, CONDUCTOR_ROWS, CONDUCTOR_SOURCES, type ConductorRow } from './conductor-rows'

/** A bare overhead conductor. Resistances per kilometre as tables print them; SI is one multiplication away. */
export interface Conductor {
  code: string
  type: 'ACSR' | 'AAC' | 'AAAC'
  standard: string
  /** kcmil, or AWG for the small sizes; absent for metric sizes. */
  size?: string
  areaAlMm2: number
  areaMetalMm2: number
  strandsAl: number
  strandAlMm: number
  strandsSteel: number
  strandSteelMm?: number
  diameterMm: number
  /** dc at 20 °C, the steel ignored. */
  rdc20OhmPerKm: number
  /** dc at 20 °C with the steel counted, where a source prints it. */
  rdc20SteelCountedOhmPerKm?: number
  /** ac at 75 °C. */
  rac75OhmPerKm: number
  /** 'coefficient': no source prints it, so it is dc at 20 °C times 1 + α (75 − 20), without skin effect. */
  rac75Basis: 'published' | 'coefficient'
  /** Temperature coefficient of resistance at 20 °C, per kelvin. */
  alpha20PerK: number
  ratedStrengthKn: number
  /** At 75 °C in air of 25 °C, sun, 0.61 m/s; a table's figure, no rating of a line. */
  ampacityA?: number
  sources: readonly string[]
  note?: string
}

/** 0.00403 for 1350-H19 aluminium (IEC 60287 Table 1); 0.00360 for 6201-T81 from memory, no public source found. */
const ALPHA20_PER_K = { ACSR: 0.00403, AAC: 0.00403, AAAC: 0.0036 } as const

const STANDARDS = { ACSR: 'ASTM B232', AAC: 'ASTM B231', AAAC: 'ASTM B399' } as const

/** R(T) / R(20 °C) of a metal with coefficient α₂₀, −50 … 300 °C. */
export const temperatureFactor = (alpha20PerK: number, temperatureC: number): number => 1 + alpha20PerK * (temperatureC - 20)

function conductorFrom(row: ConductorRow): Conductor {
  const [code, type, size, areaAl, areaMetal, nAl, dAl, nSteel, dSteel, diameter, rdc20, rdc20Steel, rac75, strength, ampacity, key] = row
  const alpha20PerK = ALPHA20_PER_K[type]
  return {
    code, type, standard: key === 'EN' ? 'EN 50182' : STANDARDS[type], size: size ?? undefined,
    areaAlMm2: areaAl, areaMetalMm2: areaMetal, strandsAl: nAl, strandAlMm: dAl, strandsSteel: nSteel, strandSteelMm: dSteel ?? undefined,
    diameterMm: diameter, rdc20OhmPerKm: rdc20, rdc20SteelCountedOhmPerKm: rdc20Steel ?? undefined,
    rac75OhmPerKm: rac75 ?? rdc20 * temperatureFactor(alpha20PerK, 75), rac75Basis: rac75 === null ? 'coefficient' : 'published',
    alpha20PerK, ratedStrengthKn: strength, ampacityA: ampacity ?? undefined,
    sources: CONDUCTOR_SOURCES[key], note: CONDUCTOR_NOTES[code],
  }
}

export const CONDUCTORS: readonly Conductor[] = CONDUCTOR_ROWS.map(conductorFrom)

const fold = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, '')
const byCode = new Map(CONDUCTORS.map((conductor) => [fold(conductor.code), conductor]))
/** Other conductors under the same code words: another alloy, core or strand shape, so another resistance. */
const OTHER_TYPES = /\b(acss|accc|accr|acar|aacsr|acsr\s*\/?\s*tw|tw|trapezoidal|sd|steel)\b/i

const lookedUp = new Map<string, Conductor | null>()

/**
 * The conductor of a code word, in any case and with or without blanks and hyphens; also where type and size stand
 * beside it ('795 kcmil 26/7 ACSR Drake').
 * @returns null where no row of the table or more than one is meant, or where another type is named ('Drake/ACSS').
 */
export function conductorByCode(code: string): Conductor | null {
  const known = lookedUp.get(code)
  if (known !== undefined) return known
  const found = search(code)
  if (lookedUp.size < 1000) lookedUp.set(code, found)
  return found
}

function search(code: string): Conductor | null {
  if (OTHER_TYPES.test(code)) return null
  const whole = byCode.get(fold(code))
  if (whole) return whole
  const words = new Set(code.split(/[\s,;/()"']+/).map(fold).filter((word) => byCode.has(word)))
  const [word] = words
  return words.size === 1 && word !== undefined ? (byCode.get(word) ?? null) : null
}

/** One layer of aluminium over a steel core: the core is magnetised and the ac resistance rises with the current. */
export const isSingleLayerAcsr = ({ type, strandsAl, strandsSteel }: Conductor): boolean =>
  type === 'ACSR' && SINGLE_LAYERS.some(([al, steel]) => al === strandsAl && steel === strandsSteel)

const SINGLE_LAYERS = [[6, 1], [7, 1], [12, 7]] as const
