import type { StructureRecord } from '../records'
import type { Field, KindTable } from './field'
import { circuitField, latField, lonField, sectionField } from './place-fields'

const FIELDS: readonly Field<Exclude<keyof StructureRecord, 'recordType' | 'rowNo' | 'rawRow'>>[] = [
  circuitField('circuit'),
  sectionField('section'),
  {
    name: 'structure', key: 'structure', type: 'identifier', required: true,
    synonyms: [
      'structure no', 'structure number', 'structure id', 'structure name', 'str', 'str no', 'str number', 'str id', 'tower', 'tower no',
      'tower number', 'tower id', 'pole', 'pole no', 'pole number', 'pole id',
    ],
    weakSynonyms: ['label', 'ref', 'name', 'osm', 'osm id', 'asset id', 'id', 'fid', 'objectid'],
    description: 'The structure\'s number as painted on it; text, so 045 and 12/3 stay as they are.', example: '045',
  },
  lonField,
  latField,
  {
    name: 'line_distance_m', key: 'lineDistanceM', type: 'number', unit: 'm', min: 0, max: 3_000_000, ifBad: 'leave-out',
    synonyms: ['line distance', 'stationing', 'chainage', 'station', 'milepost', 'mile', 'distance along line', 'sta'],
    description: 'Declared distance from the named end; calibrates what is displayed.', example: '12874.8',
  },
  {
    name: 'structure_type', key: 'structureType', type: 'text', synonyms: [
      'type', 'tower type', 'pole type', 'str type', 'structure kind', 'design', 'framing',
    ],
    description: 'Suspension, dead-end, lattice, …', example: 'suspension',
  },
  {
    name: 'aliases', key: 'aliases', type: 'list', synonyms: ['alias', 'other names', 'old number', 'former number', 'previous number'],
    description: 'Other numbers it has had, parted by a semicolon.', example: '45;12/3',
  },
]

export const STRUCTURES: KindTable = {
  label: 'Structures',
  description: 'Towers and poles by number; one row per circuit where several share a structure.',
  fields: FIELDS,
  geometry: 'point',
  needs: 'A structure needs its place: lon and lat, or circuit with line_distance_m.',
  placedBy: [['lon', 'lat'], ['circuit', 'line_distance_m']],
  exampleFields: ['circuit', 'structure', 'lon', 'lat', 'structure_type'],
}
