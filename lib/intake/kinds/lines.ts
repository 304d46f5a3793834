import type { LineRecord } from '../records'
import type { Field, KindTable } from './field'
import { sectionField } from './place-fields'

const FIELDS: readonly Field<Exclude<keyof LineRecord, 'recordType' | 'rowNo' | 'rawRow' | 'pieces'>>[] = [
  {
    name: 'circuit', key: 'circuit', type: 'identifier', required: true,
    synonyms: [
      'circuit id', 'circuit name', 'circuit no', 'circuit number', 'ckt', 'ckt id', 'cct', 'line id', 'line no', 'line number', 'feeder',
      'ckt no', 'ckt name', 'ckt number', 'cct no', 'circ', 'circ no', 'feeder no',
    ],
    weakSynonyms: ['line', 'ref', 'osm', 'osm id', 'asset id', 'id', 'fid', 'objectid'],
    description: 'Circuit as the utility names it; features of one circuit and section are joined end to end.', example: 'KF-115-02',
  },
  sectionField('section'),
  {
    name: 'line_name', key: 'lineName', type: 'text', synonyms: ['name', 'line description', 'line desc', 'circuit description', 'title'],
    description: 'What operations calls the line.', example: 'Alder Flat to Stone Ferry',
  },
  {
    name: 'from', key: 'from', type: 'text', synonyms: [
      'from substation', 'from sub', 'from station', 'sub from', 'start', 'from bus', 'from terminal',
    ],
    description: 'Named end from which line distance counts.', example: 'Alder Flat',
  },
  {
    name: 'to', key: 'to', type: 'text', synonyms: ['to substation', 'to sub', 'to station', 'sub to', 'end', 'to bus', 'to terminal'],
    description: 'The other end.', example: 'Stone Ferry',
  },
  {
    name: 'voltage_kv', key: 'voltageKv', type: 'number', unit: 'kv', min: 1, max: 1500, positive: true, ifBad: 'leave-out',
    synonyms: [
      'voltage', 'nominal voltage', 'volts', 'operating voltage', 'voltage class', 'kv', 'nominal kv', 'nom kv', 'operating kv', 'line kv', 'circuit kv', 'kv class',
    ],
    description: 'Nominal voltage.', example: '115',
  },
  {
    name: 'conductor', key: 'conductor', type: 'text', synonyms: [
      'conductor type', 'conductor code', 'code word', 'conductor name', 'wire type',
      'wire', 'wire size', 'wire name', 'conductor size', 'cond', 'cond type', 'cond size', 'cond name',
    ],
    description: 'Code word of the conductor.', example: 'Drake',
  },
  {
    name: 'subconductors', key: 'subconductors', type: 'integer', min: 1, max: 12, ifBad: 'leave-out',
    synonyms: [
      'bundle', 'conductors per phase', 'sub conductors', 'bundle count', 'conductors per bundle', 'wires per phase', 'cond per phase', 'conductors per ph',
    ],
    description: 'Conductors per phase.', example: '1',
  },
  {
    name: 'rating_a', key: 'ratingA', type: 'number', unit: 'a', min: 1, max: 20_000, positive: true, ifBad: 'leave-out',
    synonyms: [
      'rating', 'normal rating', 'ampacity', 'normal rating a', 'continuous rating', 'summer rating', 'amps normal', 'normal amps', 'amps norm', 'norm amps',
      'normal ampacity', 'rating normal', 'summer normal', 'summer normal amps', 'norm rating',
    ],
    description: 'Normal rating per phase.', example: '907',
  },
  {
    name: 'rating_emergency_a', key: 'ratingEmergencyA', type: 'number', unit: 'a', min: 1, max: 20_000, positive: true, ifBad: 'leave-out',
    synonyms: [
      'rating emergency', 'emergency rating', 'emergency ampacity', 'short time rating', 'amps emergency', 'emergency amps', 'amps emerg', 'emerg amps', 'amps emer',
      'emer amps', 'emerg rating', 'rating emerg', 'emer rating', 'emerg ampacity', 'summer emergency', 'summer emergency amps',
    ],
    description: 'Emergency rating per phase.', example: '1070',
  },
  {
    name: 'max_operating_c', key: 'maxOperatingC', type: 'number', unit: 'c', min: 30, max: 300, ifBad: 'leave-out',
    synonyms: ['max operating', 'max operating temp', 'maximum operating temperature', 'design temp', 'design temperature', 'mot',
      'max cond temp', 'max conductor temp', 'max oper temp', 'max op temp'],
    description: 'Maximum operating temperature of the conductor; the class edges follow it.', example: '75',
  },
  {
    name: 'region', key: 'region', type: 'text', synonyms: ['district', 'area', 'division', 'zone', 'service center', 'service centre'],
    description: 'Region or district.', example: 'North',
  },
  {
    name: 'radial', key: 'radial', type: 'boolean', ifBad: 'leave-out', synonyms: ['is radial', 'radial feed'],
    description: 'Loss of the circuit loses its load.', example: 'no',
  },
  {
    name: 'mw', key: 'mw', type: 'number', min: 0, max: 20_000, ifBad: 'leave-out', synonyms: [
      'load mw', 'peak mw', 'power mw', 'megawatts',
    ],
    description: 'Load served, MW.', example: '64',
  },
  {
    name: 'lateral_offset_m', key: 'lateralOffsetM', type: 'number', unit: 'm', min: -60, max: 60, ifBad: 'leave-out',
    synonyms: ['lateral offset', 'offset from centreline', 'offset from centerline', 'circuit offset'],
    description: 'Where circuits share structures: beside the centreline, left negative looking ahead.', example: '-6',
  },
  {
    name: 'elevation_m', key: 'elevationM', type: 'number', unit: 'm', min: -100, max: 5000, ifBad: 'leave-out',
    synonyms: ['elevation', 'altitude', 'height above sea level', 'elevation above sea level', 'mean elevation', 'elev', 'elev above sea level', 'masl'],
    description: 'Of the section above sea level: thinner air cools less. Without it the elevation of the rating weather holds.', example: '1200',
  },
]

export const LINES: KindTable = {
  label: 'Lines',
  description: 'GeoJSON only, not CSV: LineStrings of the circuits; point features name structures.',
  fields: FIELDS,
  geometry: 'line',
  needs: 'Its geometry is a LineString.',
  exampleFields: [
    'circuit', 'section', 'line_name', 'from', 'to',
    'voltage_kv', 'conductor', 'rating_a', 'max_operating_c', 'lateral_offset_m',
  ],
}
