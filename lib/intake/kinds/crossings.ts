import type { CrossingRecord } from '../records'
import type { Field, KindTable } from './field'
import { CROSSING_CHOICES } from './choices'
import { circuitField } from './place-fields'

const FIELDS: readonly Field<Exclude<keyof CrossingRecord, 'recordType' | 'rowNo' | 'rawRow'>>[] = [
  { ...circuitField('circuit'), required: true },
  {
    name: 'line_distance_m', key: 'lineDistanceM', type: 'number', unit: 'm', min: 0, max: 3_000_000, required: true,
    synonyms: ['line distance', 'stationing', 'chainage', 'station', 'distance along line', 'milepost', 'mile'],
    description: 'Distance from the named end.', example: '8420',
  },
  {
    name: 'kind', key: 'kind', type: 'choice', choices: CROSSING_CHOICES, required: true, synonyms: [
      'crossing kind', 'crossing type', 'type', 'crosses',
    ],
    description: 'What lies under the line.', example: 'road',
  },
  {
    name: 'name', key: 'name', type: 'text', synonyms: ['crossing name', 'crossing', 'description', 'road name'],
    description: 'Its name.', example: 'County road 12',
  },
]

export const CROSSINGS: KindTable = {
  label: 'Crossings',
  description: 'Roads, rails, rivers, lines and buildings under the circuits.',
  fields: FIELDS,
  geometry: 'none',
  needs: '',
  exampleFields: ['circuit', 'line_distance_m', 'kind', 'name'],
}
