import type { SpliceRecord } from '../records'
import type { Field, KindTable } from './field'
import { SPLICE_KIND_CHOICES } from './choices'
import {
  circuitField, circuitSideField, latField, lonField, phaseField, positionField, sectionField, structureAheadField, structureBackField,
  subconductorField,
} from './place-fields'

const FIELDS: readonly Field<Exclude<keyof SpliceRecord, 'recordType' | 'rowNo' | 'rawRow'>>[] = [
  {
    name: 'splice_id', key: 'spliceId', type: 'identifier',
    synonyms: ['splice', 'splice no', 'splice number', 'splice name', 'joint', 'joint id', 'joint no', 'asset id', 'connector id', 'id', 'sleeve no', 'sleeve id', 'spl no',
      'connector no', 'splice tag', 'joint number'],
    description: 'The splice\'s label in the utility\'s list; unique within its circuit.', example: 'SP-0412',
  },
  { ...circuitField('circuit'), required: true },
  sectionField('section'),
  structureBackField('structureBack'),
  structureAheadField('structureAhead'),
  {
    name: 'line_distance_m', key: 'lineDistanceM', type: 'number', unit: 'm', min: 0, max: 3_000_000,
    synonyms: ['line distance', 'stationing', 'chainage', 'station', 'distance along line', 'milepost', 'mile'],
    description: 'Distance from the named end.', example: '12874.8',
  },
  phaseField('phase'),
  positionField('position'),
  circuitSideField('circuitSide'),
  subconductorField('subconductor'),
  {
    name: 'kind', key: 'kind', type: 'choice', choices: SPLICE_KIND_CHOICES,
    synonyms: ['splice kind', 'splice type', 'joint type', 'fitting kind', 'connector type', 'type'],
    description: 'Kind of fitting; decides which interfaces it has. Empty: full-tension splice.', example: 'full-tension splice',
  },
  {
    name: 'fitting_type', key: 'fittingType', type: 'text', synonyms: [
      'fitting', 'catalogue no', 'catalog no', 'model', 'part no', 'catalog number', 'cat no',
    ],
    description: 'Maker\'s or store\'s number.', example: '2 in. two-stage',
  },
  {
    name: 'barrel_od_mm', key: 'barrelOdMm', type: 'number', unit: 'mm', min: 4, max: 200, positive: true, ifBad: 'leave-out',
    synonyms: ['barrel od', 'barrel diameter', 'sleeve od', 'outside diameter', 'od'],
    description: 'Outside diameter of the barrel.', example: '47.6',
  },
  {
    name: 'barrel_length_mm', key: 'barrelLengthMm', type: 'number', unit: 'mm', min: 50, max: 2000, positive: true, ifBad: 'leave-out',
    synonyms: ['barrel length', 'sleeve length', 'splice length'],
    description: 'Length of the barrel.', example: '660',
  },
  {
    name: 'installed_on', key: 'installedOn', type: 'day', ifBad: 'leave-out',
    synonyms: ['installed', 'install date', 'installation date', 'date installed', 'in service date', 'year installed', 'install year', 'yr installed',
      'install yr', 'yr inst', 'year inst', 'inst date', 'inst yr', 'date inst', 'in service year', 'in service yr', 'in svc date', 'vintage'],
    description: 'Day of installation.', example: '1998-06-15',
  },
  {
    name: 'batch', key: 'batch', type: 'identifier', synonyms: ['batch no', 'lot', 'lot no', 'batch number'],
    description: 'Batch of fitting or job.', example: 'B-98-3',
  },
  {
    name: 'removed_on', key: 'removedOn', type: 'day', ifBad: 'leave-out', synonyms: [
      'removed', 'removal date', 'date removed', 'retired on', 'out of service date',
    ],
    description: 'Day it was cut out; empty while it is on the line.', example: '',
  },
  {
    name: 'successor_of', key: 'successorOf', type: 'identifier', synonyms: ['replaces', 'replaced splice', 'successor', 'predecessor'],
    description: 'Label of the splice it replaced.', example: '',
  },
  { ...lonField, extra: true },
  { ...latField, extra: true },
]

export const SPLICES: KindTable = {
  label: 'Splices',
  description: 'The utility\'s own list of splices and fittings.',
  fields: FIELDS,
  geometry: 'point',
  needs: 'A splice needs its place: structure_back or structure_ahead, line_distance_m, or lon and lat.',
  placedBy: [['structure_back'], ['structure_ahead'], ['line_distance_m'], ['lon', 'lat']],
  exampleFields: ['splice_id', 'circuit', 'structure_back', 'structure_ahead', 'line_distance_m', 'phase', 'kind', 'installed_on'],
}
