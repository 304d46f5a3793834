import { POLICY_WORDS, policySchema, type Policy, type PolicyWord } from '@/lib/condition'

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
  title: string
  words: PolicyWord[]
}

const TITLES: readonly (readonly [key: string, title: string])[] = [
  ['edges', 'Class edges'],
  ['edgesAbove75', 'Sections above 75 °C'],
  ['edgesByMaxOperatingC', 'Sections above 75 °C, by temperature'],
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
]

/** Every setting of the engine but the procedure number, in groups, in the order of its own list. */
export const POLICY_GROUPS: readonly PolicyGroup[] = TITLES.map(([key, title]) => ({
  key,
  title,
  words: POLICY_WORDS.filter((w) => w.path.split('.')[0] === key),
})).filter((g) => g.words.length > 0)

/** As it is typed: shares in per cent, everything else as it is stored. */
export const shownNumber = (value: number, unit: string): string => String(unit === 'share' ? round(value * 100) : value)
const round = (value: number): number => Number(value.toPrecision(12))

/** What was typed as a stored number; null where it is none. */
export function typedNumber(text: string, unit: string): number | null {
  const value = text.trim() === '' ? Number.NaN : Number(text.trim().replace(',', '.'))
  if (!Number.isFinite(value)) return null
  return unit === 'share' ? round(value / 100) : value
}

export const shownUnit = (unit: string): string => (unit === 'share' ? '%' : unit)

/** What is wrong, by path, in sentences; empty where the policy can be saved. */
export function faultsOf(values: Json): Map<string, string> {
  const read = policySchema.safeParse(values)
  const faults = new Map<string, string>()
  if (read.success) return faults
  for (const issue of read.error.issues) {
    const path = issue.path.join('.')
    if (!faults.has(path)) faults.set(path, sentenceOf(issue, POLICY_WORDS.find((w) => w.path === path)?.unit ?? ''))
  }
  return faults
}

type Issue = { code: string; message: string; minimum?: unknown; maximum?: unknown; inclusive?: unknown }

function sentenceOf(issue: Issue, unit: string): string {
  const bound = (n: unknown) => (typeof n === 'number' ? `${shownNumber(n, unit)}${unit === 'share' ? ' %' : ''}` : '')
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

function said(value: Json, unit: string): string {
  if (typeof value === 'number') return `${shownNumber(value, unit)}${unit === 'share' ? ' %' : ''}`
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (Array.isArray(value)) return value.length === 0 ? 'none' : `${value.length} ${value.length === 1 ? 'entry' : 'entries'}`
  return typeof value === 'string' && value !== '' ? value : 'none'
}

/** Which settings differ between two versions, with both values. */
export function changesBetween(before: Json, after: Json): PolicyChange[] {
  return POLICY_WORDS.flatMap((w) => {
    const [from, to] = [valueAt(before, w.path), valueAt(after, w.path)]
    if (from === undefined || to === undefined || JSON.stringify(from) === JSON.stringify(to)) return []
    return [{ path: w.path, label: w.label, from: said(from, w.unit), to: said(to, w.unit) }]
  })
}
