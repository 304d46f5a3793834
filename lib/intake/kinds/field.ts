import type { Unit } from '@/lib/units/convert'

/**
 * identifier: text kept as typed, leading zeros and '12/3' included. text: anything. choice: one of `choices`.
 * list: several of `choices`, or free words, parted by ';'. day: a calendar day. instant: a moment with an offset or a zone.
 */
export type FieldType =
  | 'identifier' | 'text' | 'number' | 'integer' | 'boolean' | 'choice' | 'list' | 'instant' | 'day' | 'phase' | 'longitude' | 'latitude'

/**
 * One column of a template. The same line drives the guess at other people's headers, reading a cell, the template offered
 * for download and the table in the documentation.
 */
export interface Field<Key extends string = string> {
  /** Name in the template and the API. */
  name: string
  /** Name on the record. */
  key: Key
  type: FieldType
  /** Unit of the template's column; columns in other units of the same quantity are converted. */
  unit?: Unit
  /** Bounds in the template's unit, both included. */
  min?: number
  max?: number
  /** Zero and less is refused by a sentence of its own: such a value was never measured. */
  positive?: true
  required?: true
  /** Understood where a file has it, and not part of the template. */
  extra?: true
  /** A value that cannot be used loses its row, or ('leave-out') only itself, with a warning. */
  ifBad?: 'leave-out'
  /** The same for a number out of bounds alone; a wrong unit or no number at all still loses the row. */
  ifOutOfBounds?: 'leave-out'
  /** What follows from leaving it out, in a sentence; 'It is left out.' where absent. */
  leftOut?: string
  /** A moment that may lie ahead; whether it may in its row is for the row to say. */
  mayLieAhead?: true
  /** Word of the template → other words people write. */
  choices?: Readonly<Record<string, readonly string[]>>
  /** Headers of other people; case, blanks, accents and punctuation do not matter. */
  synonyms: readonly string[]
  /** Short headers that mean this only beside a unit, in the header or in its cells: 'A' in 'A micro-ohm'. */
  besideUnit?: readonly string[]
  /** Headers that mean this only where nothing better is there, best first. */
  weakSynonyms?: readonly string[]
  description: string
  example: string
}

/** A kind of file: what its records are called and which columns it has, in the template's order. */
export interface KindTable {
  label: string
  description: string
  fields: readonly Field[]
  /** Where each record lies on the map, when the file is GeoJSON. */
  geometry: 'line' | 'point' | 'none'
  /** What a row needs beside its required fields, in a sentence; '' where that is all. */
  needs: string
  /** Fields of which a row needs one at least: what it measured. */
  needsOneOf?: readonly string[]
  /** Sets of fields of which a row without a geometry of its own needs one whole: where it lies. */
  placedBy?: readonly (readonly string[])[]
  /** Fields of the example row: few enough to be seen at once, enough to be read without a remark. */
  exampleFields: readonly string[]
}
