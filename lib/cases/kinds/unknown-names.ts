import type { Issue } from '../importing/issue-log'

/** Names in a file that the stored network does not have. */
export const unknownCircuit = (row: number, circuit: string): Issue => ({
  severity: 'error', row, field: 'circuit', value: circuit, code: 'unknown-circuit', message: `Circuit ${circuit} is not known.`,
  remedy: 'Import its line first, or correct the name.',
})

export const unknownSection = (row: number, circuit: string, section: string): Issue => ({
  severity: 'error', row, field: 'section', value: section, code: 'unknown-section', message: `Circuit ${circuit} has no section ${section}.`,
  remedy: 'Import its line first, or correct the name.',
})

export const unknownStructure = (row: number, field: string, label: string, where: string): Issue => ({
  severity: 'error', row, field, value: label, code: 'unknown-structure', message: `Structure ${label} does not stand on ${where}.`,
  remedy: 'Import the structures first, or correct the name.',
})
