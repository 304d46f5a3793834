import type { PhasingRecord } from '../records'
import type { Field, KindTable } from './field'
import { circuitField, phaseField, positionField } from './place-fields'
import { structureFromField, structureToField } from './range-fields'

const FIELDS: readonly Field<Exclude<keyof PhasingRecord, 'recordType' | 'rowNo' | 'rawRow'>>[] = [
  { ...circuitField('circuit'), required: true },
  { ...structureFromField, required: true },
  { ...structureToField, required: true },
  { ...positionField('position'), required: true, ifBad: undefined },
  { ...phaseField('phase'), required: true, ifBad: undefined },
]

export const PHASING: KindTable = {
  label: 'Phasing',
  description: 'Which phase hangs in which position, per circuit and range of structures.',
  fields: FIELDS,
  geometry: 'none',
  needs: '',
  exampleFields: ['circuit', 'structure_from', 'structure_to', 'position', 'phase'],
}
