import { describeKind, type FieldDescription, type KindDescription } from '@/lib/intake'
import type { ImportKind } from '@/lib/intake'

const WIDTH = 100

const SAID = 'What a file leaves open is said by --map FIELD=COLUMN, --unit FIELD=UNIT, --zone ZONE, --date-order ORDER, --decimal SIGN and --set FIELD=VALUE.'

/**
 * A kind of file for a terminal: what a row needs, an example, every field with its unit, its words and the headers that are taken for it.
 * `zone` in words: 'America/Denver, the utility's zone'.
 */
export function describeText(kind: ImportKind, zone: string): string {
  const described = describeKind(kind)
  const { label, description, example, fields } = described
  return [
    `${kind}: ${label}. ${description}`, ...wrapped(needsOf(described)),
    ...fields.some((field) => field.type === 'instant') ? wrapped(`Times without an offset are read as ${zone}.`) : [],
    ...wrapped(SAID), '', '  Example:', ...example.trimEnd().split(/\r?\n/).map((line) => `  ${line}`), '', ...fields.flatMap(fieldLines),
  ].join('\n').trimEnd()
}

function needsOf({ required, needs }: KindDescription): string {
  const fields = required.length === 0 ? 'No field is needed in every row.' : `Every row needs ${required.join(', ')}.`
  return needs === '' ? fields : `${fields} ${needs}`
}

function fieldLines(field: FieldDescription): string[] {
  return [
    `${field.name}${field.required ? ' (every row needs it)' : ''}`,
    ...wrapped(`${field.description}${field.example === '' ? '' : ` Example: ${field.example}`}`),
    ...field.units.length > 0 ? wrapped(`units: ${field.units.join(', ')}${field.range ? `; from ${field.range} in ${field.unit_label}` : ''}`) : [],
    ...field.words.length > 0 ? wrapped(`words: ${field.words.join(', ')}`) : [],
    ...wrapped(`headers: ${field.headers.join(', ')}`),
    ...field.headers_with_unit.length > 0 ? wrapped(`beside a unit also: ${field.headers_with_unit.join(', ')}`) : [],
    '',
  ]
}

/** A kind in a few lines: its fields with their units. */
export function kindText(described: KindDescription): string {
  const { kind, label, description, fields } = described
  return [
    `${kind}: ${label}. ${description}`, ...wrapped(needsOf(described)),
    ...fields.map((field) => `${field.required ? '* ' : '  '}${field.name.padEnd(26)}${field.unit_label ? `${field.unit_label}. ` : ''}${field.description}`),
  ].join('\n')
}

function wrapped(text: string): string[] {
  const lines: string[] = []
  let line = ' '
  for (const word of text.split(' ')) {
    if (line.length + word.length + 1 > WIDTH) {
      lines.push(line)
      line = '   '
    }
    line += ` ${word}`
  }
  return [...lines, line].map((each) => ` ${each}`)
}
