import type { z } from 'zod'

/** What does not fit a schema, for a person: which field, what is wrong with its value, and what would fit. */
export interface FieldFault {
  path: string
  message: string
  remedy: string
  /** A key that is not known: the others are. */
  isUnknownKey: boolean
}

type Issue = z.core.$ZodIssue

/** Every fault of a value against its schema, in sentences. `whole` names the value itself: 'The body'. */
export function faultsOf(issues: readonly Issue[], value: unknown, schema: z.ZodType, whole = 'The request'): FieldFault[] {
  return issues.flatMap((issue) => faultOf(issue, value, schema, whole))
}

function faultOf(issue: Issue, root: unknown, schema: z.ZodType, whole: string): FieldFault[] {
  const path = pathOf(root, issue.path)
  const name = path === '' ? whole : path
  const found = valueAt(root, issue)
  const value = Number.isNaN(found) ? undefined : found // a coerced number that nobody gave
  const fault = (message: string, remedy: string): FieldFault[] => [{ path, message, remedy, isUnknownKey: false }]
  switch (issue.code) {
    case 'unrecognized_keys': return issue.keys.map((key) => unknownKey(key, path, keysAt(schema, issue.path)))
    case 'invalid_type':
      return value === undefined
        ? fault(`${name} is missing.`, `Give ${TYPES[issue.expected] ?? issue.expected}.`)
        : fault(`${name} is ${shown(value)}, not ${TYPES[issue.expected] ?? issue.expected}.`, `Give ${TYPES[issue.expected] ?? issue.expected}.`)
    case 'invalid_value': {
      const words = issue.values.map(String).join(', ')
      return fault(value === undefined ? `${name} is missing.` : `${name} is ${shown(value)}, which it cannot be.`, `Give ${issue.values.length === 1 ? words : `one of: ${words}`}.`)
    }
    case 'too_big': return fault(...beyond(name, value, Number(issue.maximum), 'at most'))
    case 'too_small': return fault(...beyond(name, value, Number(issue.minimum), issue.inclusive === false ? 'more than' : 'at least'))
    case 'not_multiple_of': return fault(`${name} is ${shown(value)}, which is no multiple of ${issue.divisor}.`, `Give a multiple of ${issue.divisor}.`)
    case 'invalid_format': return fault(`${name} is ${shown(value)}, which is not written as it must be.`, `Write it as ${FORMATS[issue.format] ?? issue.format}.`)
    case 'invalid_union': return unionFaults(issue, root, schema, whole, name, value)
    default: {
      // A check of our own brings the end of the sentence and its remedy.
      const remedy: unknown = issue.code === 'custom' ? issue.params?.remedy : undefined
      return typeof remedy === 'string' ? fault(`${name} ${issue.message}`, remedy)
        : fault(`${name}: ${issue.message.replace(/\.?$/, '.')}`, 'Correct it as /api/openapi.json describes it.')
    }
  }
}

const TYPES: Partial<Record<string, string>> = {
  string: 'a text', number: 'a number', int: 'a whole number', boolean: 'true or false', array: 'a list', object: 'an object', record: 'an object',
  tuple: 'a list of numbers', null: 'null', bigint: 'a whole number', date: 'a date',
}

const FORMATS: Partial<Record<string, string>> = {
  datetime: '2026-05-04T09:26:00-06:00', date: '2026-05-04', url: 'https://host/path', uuid: 'a UUID',
}

function shown(value: unknown): string {
  if (typeof value === 'string') return `'${value.length > 60 ? `${value.slice(0, 60)}…` : value}'`
  if (Array.isArray(value)) return 'a list'
  if (value === null || typeof value === 'number' || typeof value === 'boolean') return String(value)
  return value === undefined ? 'missing' : 'an object'
}

function beyond(name: string, value: unknown, edge: number, words: string): [message: string, remedy: string] {
  // A number is written as it is to be sent; counts are for reading.
  const limit = edge.toLocaleString('en-US')
  if (Array.isArray(value)) return [`${name} has ${value.length.toLocaleString('en-US')} items.`, `Give ${words} ${limit}.`]
  if (typeof value === 'string' && !isNumeric(value)) {
    return value === '' ? [`${name} is empty.`, `Give ${words} ${limit} ${edge === 1 ? 'character' : 'characters'}.`]
      : [`${name} has ${value.length.toLocaleString('en-US')} characters.`, `Give ${words} ${limit}.`]
  }
  return [`${name} is ${shown(value)}.`, `Give ${words} ${edge}.`]
}

const isNumeric = (text: string): boolean => text.trim() !== '' && Number.isFinite(Number(text))

function unionFaults(
  issue: Extract<Issue, { code: 'invalid_union' }>, root: unknown, schema: z.ZodType, whole: string, name: string, value: unknown,
): FieldFault[] {
  // Of several shapes the one that fits best is meant.
  const [nearest] = [...issue.errors].sort((a, b) => a.length - b.length)
  if (nearest && nearest.length > 0 && nearest.some((inner) => inner.path.length > 0)) {
    return nearest.flatMap((inner) => faultOf({ ...inner, path: [...issue.path, ...inner.path] } as Issue, root, schema, whole))
  }
  const kinds = issue.errors.flatMap((inner) => inner.flatMap((each) => (each.code === 'invalid_type' ? [TYPES[each.expected] ?? each.expected] : [])))
  const words = 'options' in issue && Array.isArray(issue.options) ? issue.options.map(String) : []
  const remedy = words.length > 0 ? `Give one of: ${words.join(', ')}.` : kinds.length > 0 ? `Give ${[...new Set(kinds)].join(' or ')}.` : 'Give one of the shapes in /api/openapi.json.'
  return [{
    path: issue.path.map(String).join('.'), message: value === undefined ? `${name} is missing.` : `${name} is ${shown(value)}, which fits nothing it can be.`,
    remedy, isUnknownKey: false,
  }]
}

/** Path of the first key of an object, at any depth, that reading it by its schema left out; null where all were known. */
export function firstUnknownKey(value: unknown, read: unknown, path = ''): string | null {
  if (typeof value !== 'object' || value === null || typeof read !== 'object' || read === null) return null
  for (const [key, inner] of Object.entries(value)) {
    const at = path === '' ? key : `${path}.${key}`
    if (!(key in read)) return at
    const deeper = firstUnknownKey(inner, (read as Record<string, unknown>)[key], at)
    if (deeper) return deeper
  }
  return null
}

function unknownKey(key: string, path: string, known: readonly string[]): FieldFault {
  return {
    path: path === '' ? key : `${path}.${key}`,
    message: `There is no '${key}'${path === '' ? ' here' : ` in ${path}`}.`,
    remedy: known.length === 0 ? 'Leave it away: nothing is taken here.' : `Leave it away, or use one of: ${known.join(', ')}.`,
    isUnknownKey: true,
  }
}

/** As it was sent; where the schema made something else of it first (lists parted by commas), as that. */
/** 'circuit' for the items of a list that stood in the address as one text, 'rows.3.kind' in a body. */
function pathOf(root: unknown, keys: readonly PropertyKey[]): string {
  const [first] = keys
  const isText = first !== undefined && typeof root === 'object' && root !== null && typeof (root as Record<PropertyKey, unknown>)[first] === 'string'
  return (isText ? [first] : keys).map(String).join('.')
}

function valueAt(root: unknown, issue: Issue): unknown {
  let value = root
  for (const key of issue.path) {
    if (typeof value === 'string') return value // a list written as one text
    if (typeof value !== 'object' || value === null) return issue.input
    value = (value as Record<PropertyKey, unknown>)[key]
  }
  return value === undefined ? issue.input : value
}

interface Def { type: string; shape?: Record<string, z.ZodType>; innerType?: z.ZodType; out?: z.ZodType; element?: z.ZodType; options?: z.ZodType[] }

/** Names that the schema knows at a place within it. */
function keysAt(schema: z.ZodType, path: readonly PropertyKey[]): string[] {
  const { type, shape, innerType, out, element, options } = schema.def as unknown as Def
  if (options) return [...new Set(options.flatMap((option) => keysAt(option, path)))]
  const inner = innerType ?? (type === 'pipe' ? out : undefined)
  if (inner) return keysAt(inner, path)
  const [first, ...rest] = path
  if (first === undefined) return Object.keys(shape ?? {})
  const next = element ?? shape?.[String(first)]
  return next ? keysAt(next, rest) : []
}
