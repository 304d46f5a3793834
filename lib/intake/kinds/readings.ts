import type { ReadingValues } from '../reading'
import type { Field, KindTable } from './field'
import { PLATFORM_CHOICES } from './choices'
import {
  circuitField, circuitSideField, latField, lonField, phaseField, positionField, sectionField, structureAheadField, structureBackField,
  subconductorField,
} from './place-fields'
import { READING_EVIDENCE_FIELDS } from './reading-evidence-fields'

type ReadingField = Field<keyof ReadingValues | 'readingKey' | 'survey'>

const WHEN_AND_WHERE_FIELDS: readonly ReadingField[] = [
  {
    name: 'reading_id', key: 'readingKey', type: 'identifier',
    synonyms: ['reading no', 'reading number', 'record id', 'record no', 'measurement id', 'test no', 'test id', 'id', 'rdg no', 'measurement no', 'test number', 'item no'],
    description: 'The reading\'s own name within its survey; the same name with other values is an error.', example: 'R-000123',
  },
  {
    name: 'survey', key: 'survey', type: 'identifier', synonyms: [
      'survey name', 'survey id', 'campaign', 'inspection', 'mission', 'flight',
    ],
    description: 'Survey the reading belongs to; empty: the survey named at the import.', example: '2026 spring resistance',
  },
  {
    name: 'taken_at', key: 'takenAt', type: 'instant',
    synonyms: [
      'date time', 'datetime', 'timestamp', 'date', 'time', 'taken', 'measured at', 'reading time', 'reading date', 'date taken',
      'time taken', 'dt', 'meas date', 'measurement date', 'measurement time', 'date measured', 'date tested', 'meas time', 'time of reading',
      'test date', 'test time', 'survey date', 'survey time', 'inspection date', 'local time', 'date and time', 'utc time', 'time utc',
      'gps time', 'date shot', 'time shot', 'shot date', 'shot time', 'when', 'date read', 'date of test', 'date of reading', 'reading dt', 'test dt', 'read date',
      'tested on', 'measured on', 'taken on', 'shot at', 'shot on', 'tested at', 'read at', 'read on', 'recorded at', 'observed', 'observed at', 'observed on', 'observation time',
      'phenomenon time', 'captured at', 'acquired at', 'acquisition time', 'capture time', 'result time', 'messzeit', 'messzeitpunkt', 'messdatum', 'zeitpunkt', 'datum', 'date de mesure', 'fecha', 'fecha de medición',
    ],
    description: 'Moment with its offset, or in the file\'s time zone. A date and a time in two columns are joined.',
    example: '2026-05-04T09:26:00-06:00',
  },
  lonField,
  latField,
  {
    name: 'gnss_accuracy_m', key: 'gnssAccuracyM', type: 'number', unit: 'm', min: 0, max: 5000, ifBad: 'leave-out',
    synonyms: ['gnss accuracy', 'gps accuracy', 'accuracy', 'horizontal accuracy', 'position accuracy', 'gps error', 'haccuracy'],
    description: 'Radius that holds 68 % of positions.', example: '4.5',
  },
  {
    name: 'position_of', key: 'positionOf', type: 'choice', ifBad: 'leave-out',
    choices: { target: ['splice', 'joint', 'object'], platform: ['aircraft', 'camera', 'observer', 'vehicle', 'helicopter', 'drone'] },
    synonyms: ['position is of', 'gps of', 'location of'],
    description: 'target: the position is the splice\'s; platform: the observer\'s, beside the line.', example: 'target',
  },
  {
    name: 'platform', key: 'platform', type: 'choice', choices: PLATFORM_CHOICES, ifBad: 'leave-out',
    synonyms: ['survey platform', 'vehicle', 'access', 'access method', 'carrier'],
    description: 'What carried the instrument.', example: 'bucket',
  },
  {
    name: 'kind', key: 'kind', type: 'choice',
    choices: {
      resistance: ['ohm', 'ohms', 'micro-ohm', 'microohm', 'ratio', 'electrical'], infrared: [
        'ir', 'thermal', 'thermography', 'temperature',
      ],
      visual: ['visual inspection', 'photo', 'patrol', 'inspection'],
    },
    synonyms: ['reading kind', 'reading type', 'method', 'type', 'survey type', 'inspection type', 'measurement type'],
    description: 'resistance, infrared or visual; empty: told from the columns that are filled.', example: 'resistance',
  },
  circuitField('circuitLabel'),
  sectionField('sectionLabel'),
  structureBackField('structureBack'),
  structureAheadField('structureAhead'),
  {
    name: 'offset_from_structure_m', key: 'offsetFromStructureM', type: 'number', unit: 'm', min: 0, max: 5000, ifBad: 'leave-out',
    synonyms: [
      'offset from structure', 'distance from structure', 'dist from str', 'distance from tower', 'offset', 'distance from back structure',
      'dist from tower', 'dist from structure', 'distance from pole', 'dist from pole', 'distance to structure', 'distance from str',
      'dist from back str', 'distance from back str', 'dist from back structure', 'dist from back tower', 'distance from back tower', 'dist from back pole',
      'distance from back pole', 'dist from back', 'distance from back', 'dist from str back', 'distance from structure back', 'offset from back str',
      'offset from back structure', 'offset from str', 'distance ahead of back str', 'distance from from str', 'dist ahead',
    ],
    besideUnit: [
      'from structure', 'from tower', 'from pole', 'from str', 'from back structure', 'from back str', 'from back tower', 'from back pole', 'from back twr',
      'from back', 'from str back', 'from structure back', 'from twr', 'from struct', 'from back struct', 'dist', 'ahead of structure', 'ahead of str',
      'ahead of back str', 'ahead of back structure', 'past back str', 'past str', 'out',
    ],
    description: 'Metres ahead of structure_back.', example: '104.5',
  },
  {
    name: 'span_fraction', key: 'spanFraction', type: 'number', min: 0, max: 1, ifBad: 'leave-out',
    synonyms: ['fraction of span', 'span share', 'fraction'],
    description: 'Share of the span from structure_back: 0.33 is one third ahead.', example: '0.33',
  },
  phaseField('phase'),
  positionField('position'),
  circuitSideField('circuitSide'),
  subconductorField('subconductor'),
  {
    name: 'splice_id', key: 'spliceLabel', type: 'identifier',
    synonyms: [
      'splice', 'splice no', 'splice number', 'splice name', 'joint', 'joint id', 'joint no', 'asset id', 'connector id', 'splice tag', 'sleeve no',
      'sleeve id', 'spl no', 'connector no', 'tag no', 'muffe', 'muffe nr', 'manchon', 'empalme', 'joint number', 'sleeve number', 'spl id', 'splice tag no',
    ],
    description: 'The splice\'s label in the utility\'s list.', example: 'SP-0412',
  },
]

export const READINGS: KindTable = {
  label: 'Readings',
  description: 'Resistance, infrared and visual readings of splices.',
  fields: [...WHEN_AND_WHERE_FIELDS, ...READING_EVIDENCE_FIELDS],
  geometry: 'point',
  needs: 'A reading needs something measured or seen: side_a_uohm or side_b_uohm with conductor_uohm, splice_temp_c, or findings. To be placed it needs lon and lat, or what it declares: circuit with structures, or splice_id.',
  needsOneOf: ['side_a_uohm', 'side_b_uohm', 'splice_temp_c', 'findings'],
  exampleFields: [
    'reading_id', 'taken_at', 'lon', 'lat', 'gnss_accuracy_m', 'position_of', 'platform', 'kind',
    'circuit', 'structure_back', 'structure_ahead', 'phase', 'side_a_uohm', 'side_b_uohm', 'conductor_uohm', 'electrode_span_m',
  ],
}
