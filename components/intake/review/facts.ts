import type { ReadingJson } from '@/lib/contract/contract'
import { findingWords } from '@/lib/condition/words'
import { phaseText, type PhaseLetters } from '@/components/splice/position'
import { findField } from '@/lib/intake/kinds/kinds'
import type { Platform } from '@/lib/intake/reading'
import { formatCurrent, formatLength, formatResistance, formatTemperature, formatWind, type UnitSystem } from '@/lib/units/format'
import { spell } from '@/lib/units/spelling'

export interface Fact {
  label: string
  value: string
}

const MEASURED: Record<string, string> = {
  side_a_uohm: 'Side A',
  side_b_uohm: 'Side B',
  conductor_uohm: 'Conductor',
  conductor_b_uohm: 'Conductor, other end',
  electrode_span_m: 'Electrode span',
  conductor_span_m: 'Conductor span',
  splice_temp_c: 'Splice',
  conductor_temp_c: 'Conductor',
  ambient_c: 'Air',
  line_current_a: 'Line current',
  wind_m_s: 'Wind',
  findings: 'Findings',
}
const PLACE: Record<string, string> = {
  circuit: 'Circuit',
  section: 'Section',
  structure_back: 'Structure back',
  structure_ahead: 'Structure ahead',
  offset_from_structure_m: 'From structure back',
  span_fraction: 'Part of span',
  position: 'Position',
  circuit_side: 'Circuit side',
  subconductor: 'Subconductor',
  splice_id: 'Splice',
}
const REST: Record<string, string> = {
  crew: 'Crew',
  instrument: 'Instrument',
  photo: 'Picture',
  note: 'Note',
  after_repair: 'After repair',
}

const PLATFORM_WORDS: Readonly<Record<Platform, string>> = {
  ground: 'the ground', bucket: 'bucket truck', ladder: 'ladder', line_platform: 'line platform', line_robot: 'line robot',
  uncrewed: 'uncrewed aircraft', helicopter: 'helicopter',
}
const platformText = (platform: string): string => (PLATFORM_WORDS as Readonly<Record<string, string>>)[platform] ?? platform

type Value = ReadingJson['fields'][string]

function valueText(name: string, value: Value, system: UnitSystem): string {
  if (Array.isArray(value)) return spell((name === 'findings' ? value.map((v) => findingWords(String(v))) : value).join(', '), system)
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'string') return name === 'position' ? spell(value, system) : value
  switch (findField('readings', name)?.unit) {
    case 'uohm':
      return formatResistance(value)
    case 'c':
      return formatTemperature(value, system)
    case 'a':
      return formatCurrent(value)
    case 'm_s':
      return formatWind(value, system)
    case 'm':
      return formatLength(value, system)
    default:
      return String(value)
  }
}

const pick = (reading: ReadingJson, names: Record<string, string>, system: UnitSystem): Fact[] =>
  Object.entries(names).flatMap(([name, label]) => {
    const value = reading.fields[name]
    return value === undefined || value === '' ? [] : [{ label, value: valueText(name, value, system) }]
  })

/** What the reading says, in the user's units: what was measured, where it says it was, who took it. */
export function factsOf(
  reading: ReadingJson,
  system: UnitSystem,
  letters: PhaseLetters,
): { measured: Fact[]; place: Fact[]; rest: Fact[] } {
  const phase = reading.fields['phase']
  return {
    measured: pick(reading, MEASURED, system),
    place: [
      ...pick(reading, PLACE, system),
      ...(typeof phase === 'string'
        ? [{ label: 'Phase', value: phaseText({ phase, position: null }, letters).replace('phase ', '') }]
        : []),
      ...(reading.platform === null
        ? []
        : [{ label: 'From', value: `${platformText(reading.platform)}${reading.position_of === 'platform' ? ', beside the line' : ''}` }]),
    ],
    rest: pick(reading, REST, system),
  }
}

/** Side over conductor as read; sides without a number, or no conductor reading, give none. */
export function ratiosOf(reading: ReadingJson): { side: 'A' | 'B'; ratio: number }[] {
  const number = (name: string): number | null => {
    const v = reading.fields[name]
    return typeof v === 'number' && v > 0 ? v : null
  }
  const conductor = number('conductor_uohm')
  if (conductor === null) return []
  return (['A', 'B'] as const).flatMap((side) => {
    const uohm = number(side === 'A' ? 'side_a_uohm' : 'side_b_uohm')
    return uohm === null ? [] : [{ side, ratio: uohm / conductor }]
  })
}
