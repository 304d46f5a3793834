import { z } from 'zod'
import { readingRows } from '@/lib/contract/api'
import { KINDS } from '@/lib/intake'
import type { Field } from '@/lib/intake/kinds/field'
import { unitLabel } from '@/lib/units/convert'

type Schema = Record<string, unknown>

const { needs, needsOneOf = [], fields } = KINDS.readings

const IGNORED = 'A key that is neither a field nor a header people use for one is not refused: it is not read, and ignored_columns of the report '
  + 'names it with samples of what it held.'
const ROW = `One reading. ${needs} A row that lacks it is rejected by itself and named in the report's issues; no row stands in the way of the others. `
  + 'A moment without an offset is in the zone of Settings, a number is in the unit named here, and null and "" say nothing. '
  + 'Headers of other people and cells in other units are read as in a file: /api/v1/templates/readings.json lists them.'

/** The JSON Schema (2020-12) of the body of POST /api/v1/readings, from the table that reads it. */
export function readingRowsSchema(): Schema {
  const { $schema: _, items: _any, ...list } = z.toJSONSchema(readingRows)
  return { ...list, items: readingRowSchema() }
}

export function readingRowSchema(): Schema {
  const required = fields.filter((field) => field.required).map(({ name }) => name)
  return {
    type: 'object',
    description: ROW,
    properties: Object.fromEntries(fields.map((field) => [field.name, fieldSchema(field)])),
    ...required.length > 0 && { required },
    additionalProperties: { description: IGNORED },
  }
}

/** Text is taken for every field, as a file's cell is; a value of the field's own type comes first. */
function fieldSchema(field: Field): Schema {
  const { type, unit, min, max } = field
  return {
    type: [...OWN_TYPES[type], 'string', 'null'],
    ...type === 'list' && { items: { type: 'string' } },
    ...min !== undefined && { minimum: min },
    ...max !== undefined && { maximum: max },
    ...unit && { 'x-unit': unitLabel(unit) },
    description: wordsOf(field),
    examples: [exampleOf(field)],
  }
}

const OWN_TYPES: Readonly<Record<Field['type'], readonly string[]>> = {
  number: ['number'], integer: ['integer'], longitude: ['number'], latitude: ['number'], boolean: ['boolean'], list: ['array'],
  identifier: ['integer'], phase: ['integer'], text: [], choice: [], instant: [], day: [],
}

function wordsOf({ name, type, unit, choices, required, description }: Field): string {
  const words = Object.keys(choices ?? {})
  return [
    description,
    ...unit ? [`In ${unitLabel(unit)}.`] : [],
    ...words.length > 0 ? [`${type === 'list' ? 'Any of' : 'One of'}: ${words.join(', ')}.`] : [],
    required ? 'Required.' : needsOneOf.includes(name) ? `One at least of ${needsOneOf.join(', ')} is required.` : 'Not required.',
  ].join(' ')
}

function exampleOf({ type, example }: Field): unknown {
  switch (type) {
    case 'number':
    case 'integer':
    case 'longitude':
    case 'latitude': return Number(example)
    case 'list': return example.split(';').map((word) => word.trim())
    default: return example
  }
}
