import { POLICY_WORDS, policySchema, type Policy, type PolicyWord } from '@/lib/condition'
import type { UnitSystem } from '@/lib/units/format'
import { localText } from '@/lib/units/local-text'
import { shownIn } from './policy-units'

export type PolicyValues = Omit<Policy, 'version'>
type Json = unknown

/** The value at a dotted path; undefined where there is none. */
export function valueAt(values: Json, path: string): Json {
  return path
    .split('.')
    .reduce<Json>((at, key) => (typeof at === 'object' && at !== null ? (at as Record<string, Json>)[key] : undefined), values)
}

/** The same values with one changed; nothing else is touched. */
export function withValue<T>(values: T, path: string, value: Json): T {
  const [key = '', ...rest] = path.split('.')
  const here = values as Record<string, Json>
  return { ...here, [key]: rest.length === 0 ? value : withValue(here[key] ?? {}, rest.join('.'), value) } as T
}

export interface PolicyGroup {
  key: string
  /** With its quantities in braces, for `localText`. */
  title: string
  words: PolicyWord[]
}

const TITLES: readonly (readonly [key: string, title: string])[] = [
  ['edges', 'Class edges'],
  ['edgesAbove75', 'Sections above {75 °C}'],
  ['edgesByMaxOperatingC', 'Sections above {75 °C}, by temperature'],
  ['pRules', 'How likely a class must be'],
  ['hold', 'Clearing urgent and critical'],
  ['response', 'Response times'],
  ['resurveyYears', 'Measure again after'],
  ['confidence', 'Confidence'],
  ['instrument', 'Instruments'],
  ['repeats', 'Repeats'],
  ['span', 'Electrode spans'],
  ['reference', 'Conductor reading'],
  ['side', 'Limits of a side'],
  ['asymmetry', 'Difference of the sides'],
  ['conflict', 'Readings that disagree'],
  ['prior', 'Before measuring'],
  ['ageing', 'Ageing'],
  ['findings', 'What was seen'],
  ['infrared', 'Infrared'],
  ['radiometry', 'Infrared by heat balance'],
  ['ratingWeather', 'Weather of ratings'],
  ['limit', 'Current limits'],
  ['trend', 'Trend'],
]

/** Every setting of the engine but the procedure number, in groups, in the order of its own list. */
export const POLICY_GROUPS: readonly PolicyGroup[] = TITLES.map(([key, title]) => ({
  key,
  title,
  words: POLICY_WORDS.filter((w) => w.path.split('.')[0] === key),
})).filter((g) => g.words.length > 0)

/** As it is typed: shares in per cent, temperatures, wind and lengths in the reader's units, everything else as it is stored. */
export function shownNumber(value: number, unit: string, system: UnitSystem): string {
  const shown = shownIn(unit, system).toShown(value)
  return String(Number(shown.toPrecision(unit === 'share' || shown === value ? 12 : 4)))
}

/** What was typed as a stored number; null where it is none. */
export function typedNumber(text: string, unit: string, system: UnitSystem): number | null {
  const value = text.trim() === '' ? Number.NaN : Number(text.trim().replace(',', '.'))
  if (!Number.isFinite(value)) return null
  return Number(shownIn(unit, system).toStored(value).toPrecision(12))
}

/** The number with its unit, the per cent sign close to it. */
function shownText(value: number, unit: string, system: UnitSystem): string {
  const number = shownNumber(value, unit, system)
  if (unit === 'share') return `${number}%`
  return WITH_UNIT.has(unit) ? `${number} ${shownIn(unit, system).label}` : number
}

const WITH_UNIT: ReadonlySet<string> = new Set(['°C', 'K', 'm/s', 'm'])

/** What is wrong, by path, in sentences; empty where the policy can be saved. */
export function faultsOf(values: Json, system: UnitSystem): Map<string, string> {
  const read = policySchema.safeParse(values)
  const faults = new Map<string, string>()
  if (read.success) return faults
  for (const issue of read.error.issues) {
    const path = issue.path.join('.')
    if (!faults.has(path)) faults.set(path, sentenceOf(issue, POLICY_WORDS.find((w) => w.path === path)?.unit ?? '', system))
  }
  return faults
}

type Issue = { code: string; message: string; minimum?: unknown; maximum?: unknown; inclusive?: unknown }

function sentenceOf(issue: Issue, unit: string, system: UnitSystem): string {
  const bound = (n: unknown) => (typeof n === 'number' ? shownText(n, unit, system) : '')
  if (issue.code === 'invalid_type') return 'Write a number.'
  if (issue.code === 'too_small')
    return issue.inclusive === false ? `Must be over ${bound(issue.minimum)}.` : `Must be ${bound(issue.minimum)} or more.`
  if (issue.code === 'too_big')
    return issue.inclusive === false ? `Must be under ${bound(issue.maximum)}.` : `Must be ${bound(issue.maximum)} or less.`
  return issue.message
}

export interface PolicyChange {
  path: string
  label: string
  from: string
  to: string
}

function said(value: Json, unit: string, system: UnitSystem): string {
  if (typeof value === 'number') return shownText(value, unit, system)
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (Array.isArray(value)) return value.length === 0 ? 'none' : `${value.length} ${value.length === 1 ? 'entry' : 'entries'}`
  return typeof value === 'string' && value !== '' ? value : 'none'
}

/** Whether two numbers read alike in the reader's units: one typed as it was shown is no change. */
function readsAlike(from: Json, to: Json, unit: string, system: UnitSystem): boolean {
  return typeof from === 'number' && typeof to === 'number' && shownNumber(from, unit, system) === shownNumber(to, unit, system)
}

/** The same values with one changed; one that reads as it does in `stored` is the stored one, to the last bit. */
export function withTyped<T>(values: T, stored: T, path: string, value: Json, system: UnitSystem): T {
  const before = valueAt(stored, path)
  const unit = POLICY_WORDS.find((word) => word.path === path)?.unit ?? ''
  return withValue(values, path, readsAlike(before, value, unit, system) ? before : value)
}

/** Which settings differ between two versions as they read, with both values. */
export function changesBetween(before: Json, after: Json, system: UnitSystem): PolicyChange[] {
  return POLICY_WORDS.flatMap((w) => {
    const [from, to] = [valueAt(before, w.path), valueAt(after, w.path)]
    if (from === undefined || to === undefined || JSON.stringify(from) === JSON.stringify(to) || readsAlike(from, to, w.unit, system)) return []
    return [{ path: w.path, label: localText(w.label, system), from: said(from, w.unit, system), to: said(to, w.unit, system) }]
  })
}
