import type { LoadRecord } from '../records'
import { LOAD_QUALITY_CHOICES } from './choices'
import type { Field, KindTable } from './field'
import { circuitField, sectionField } from './place-fields'

const FIELDS: readonly Field<Exclude<keyof LoadRecord, 'recordType' | 'rowNo' | 'rawRow'>>[] = [
  { ...circuitField('circuit'), required: true },
  sectionField('section'),
  {
    name: 'taken_at', key: 'takenAt', type: 'instant', required: true, mayLieAhead: true,
    synonyms: ['date time', 'datetime', 'timestamp', 'date', 'time', 'measured at', 'date and time', 'local time', 'utc time', 'time utc', 'interval end', 'when', 'hour ending', 'read time'],
    description: 'Moment with its offset, or in the file\'s time zone; of a planned figure the moment it stands for, which may lie ahead.', example: '2026-05-04T09:00:00-06:00',
  },
  {
    name: 'current_a', key: 'currentA', type: 'number', unit: 'a', min: 0, max: 20_000, required: true,
    synonyms: ['current', 'load', 'load current', 'amps', 'amperes', 'line current', 'load a', 'line amps', 'phase current', 'line load', 'flow'],
    description: 'Current per phase.', example: '512',
  },
  {
    name: 'quality', key: 'quality', type: 'choice', choices: LOAD_QUALITY_CHOICES, ifBad: 'leave-out',
    synonyms: ['status', 'quality code', 'flag', 'data quality', 'validity'],
    description: 'measured, estimated or suspect; empty: nobody said. What is suspect is kept and never counts as the last known load. Or a planned figure: '
      + 'expected-peak, or post-contingency for the flow after the worst single outage elsewhere; the latest of each counts.',
    example: 'measured',
  },
]

export const LOADS: KindTable = {
  label: 'Loads',
  description: 'What each section of a circuit carried, moment by moment, and what the planner expects it to carry.',
  fields: FIELDS,
  geometry: 'none',
  needs: '',
  exampleFields: ['circuit', 'section', 'taken_at', 'current_a', 'quality'],
}
