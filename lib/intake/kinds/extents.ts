import type { ExtentRecord } from '../records'
import type { Field, KindTable } from './field'
import { circuitField } from './place-fields'
import { structureFromField, structureToField } from './range-fields'

const FIELDS: readonly Field<Exclude<keyof ExtentRecord, 'recordType' | 'rowNo' | 'rawRow'>>[] = [
  {
    name: 'survey', key: 'survey', type: 'identifier', synonyms: [
      'survey name', 'survey id', 'campaign', 'inspection', 'mission', 'flight',
    ],
    description: 'Survey; empty: the survey named at the import.', example: '2026 spring flight',
  },
  { ...circuitField('circuit'), required: true },
  structureFromField,
  structureToField,
  {
    name: 'surveyed_on', key: 'surveyedOn', type: 'day', required: true,
    synonyms: ['survey date', 'date', 'surveyed', 'date surveyed', 'inspection date', 'patrol date', 'patrolled on', 'flown on', 'date patrolled', 'date flown',
      'flight date'],
    description: 'Day of the patrol.', example: '2026-05-04',
  },
  {
    name: 'method', key: 'method', type: 'text', required: true, synonyms: [
      'survey method', 'inspection method', 'type', 'survey type', 'kind',
    ],
    description: 'resistance, infrared, visual, …', example: 'infrared',
  },
  {
    name: 'result', key: 'result', type: 'text', synonyms: ['outcome', 'finding', 'findings', 'exception', 'exceptions'],
    description: 'What the patrol reported.', example: 'no exception',
  },
  {
    name: 'line_current_a', key: 'lineCurrentA', type: 'number', unit: 'a', min: 0, max: 10_000, ifBad: 'leave-out',
    synonyms: ['line current', 'current', 'load', 'load current', 'amps', 'line load', 'load a', 'line amps', 'phase current'],
    description: 'Current per phase during the survey.', example: '520',
  },
  {
    name: 'ambient_c', key: 'ambientC', type: 'number', unit: 'c', min: -70, max: 70, ifBad: 'leave-out',
    synonyms: ['ambient', 'ambient temp', 'ambient temperature', 'air temp', 'air temperature', 'outside temp'],
    description: 'Air temperature.', example: '18',
  },
  {
    name: 'wind_m_s', key: 'windMS', type: 'number', unit: 'm_s', min: 0, max: 75, ifBad: 'leave-out', synonyms: [
      'wind', 'wind speed', 'windspeed',
    ],
    description: 'Wind speed at the line.', example: '2.5',
  },
]

export const EXTENTS: KindTable = {
  label: 'Survey extents',
  description: 'What was patrolled, exception or not: coverage per span.',
  fields: FIELDS,
  geometry: 'none',
  needs: '',
  exampleFields: ['survey', 'circuit', 'structure_from', 'structure_to', 'surveyed_on', 'method', 'result', 'line_current_a', 'wind_m_s'],
}
