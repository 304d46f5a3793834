import { suggest } from '@/lib/intake/cells/suggest'
import type { Issue } from '../importing/issue-log'

/** The one name that somebody meant who wrote another within two edits; null where none or several are as near. */
export const nearestName = (written: string, names: readonly string[]): string | null =>
  suggest(written.trim().toLowerCase(), new Map(names.map((name) => [name.toLowerCase(), name])))

/** Names in a file that the stored network does not have. */
export function unknownCircuit(row: number, circuit: string, names: readonly string[]): Issue {
  const nearest = nearestName(circuit, names)
  return {
    severity: 'error', row, field: 'circuit', value: circuit, code: 'unknown-circuit',
    message: `Circuit ${circuit} is not known.${nearest === null ? '' : ` The nearest name is ${nearest}.`}`,
    remedy: `Import its line first, or correct the name${nearest === null ? '' : ` to ${nearest}`}.`,
  }
}

export const unknownSection = (row: number, circuit: string, section: string): Issue => ({
  severity: 'error', row, field: 'section', value: section, code: 'unknown-section', message: `Circuit ${circuit} has no section ${section}.`,
  remedy: 'Import its line first, or correct the name.',
})

export const unknownStructure = (row: number, field: string, label: string, where: string): Issue => ({
  severity: 'error', row, field, value: label, code: 'unknown-structure', message: `Structure ${label} does not stand on ${where}.`,
  remedy: 'Import the structures first, or correct the name.',
})
