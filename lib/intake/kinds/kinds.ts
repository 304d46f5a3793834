import type { ImportKind } from '../types'
import { CROSSINGS } from './crossings'
import { EXTENTS } from './extents'
import type { Field, KindTable } from './field'
import { LINES } from './lines'
import { LOADS } from './loads'
import { PHASING } from './phasing'
import { READINGS } from './readings'
import { SPLICES } from './splices'
import { STRUCTURES } from './structures'

/** Every kind of file there is. Everything that depends on a kind reads this table. */
export const KINDS: Readonly<Record<ImportKind, KindTable>> = {
  lines: LINES,
  structures: STRUCTURES,
  splices: SPLICES,
  readings: READINGS,
  phasing: PHASING,
  crossings: CROSSINGS,
  extents: EXTENTS,
  loads: LOADS,
}

/** Columns of the template offered for download, in its order. */
export const templateFields = (kind: ImportKind): Field[] => KINDS[kind].fields.filter((field) => !field.extra)

export const findField = (kind: ImportKind, name: string): Field | undefined => KINDS[kind].fields.find((field) => field.name === name)
