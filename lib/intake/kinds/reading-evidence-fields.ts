import type { ReadingValues } from '../reading'
import type { Field } from './field'
import { FINDING_CHOICES } from './choices'

type ReadingField = Field<keyof ReadingValues>

const ohms = { type: 'number', unit: 'uohm', min: 0.5, max: 50_000, positive: true } as const
/** One slip of the pen beside it takes no heat out of a splice: the sides count without it. */
const conductors = {
  ...ohms, ifOutOfBounds: 'leave-out',
  leftOut: 'It is left out: the sides are judged by the conductor on record, provisionally, and not at all where none is on record.',
} as const
const spans = { type: 'number', unit: 'm', min: 0.05, max: 4, positive: true } as const

/** What the instrument, the camera and the eye said. Ranges are limits of sense (common practice, no source). */
export const READING_EVIDENCE_FIELDS: readonly ReadingField[] = [
  {
    name: 'side_a_uohm', key: 'sideAUohm', ...ohms,
    synonyms: [
      'r side a', 'side a resistance', 'resistance side a', 'ra', 'r a', 'splice side a', 'side 1', 'r side 1', 'back side',
      'side a reading', 'a side', 'end a', 'a end', 'reading a', 'reading side a', 'splice a', 'r1', 'r 1', 'r a side', 'res a', 'res side a',
      'resistance a', 'barrel a', 'side 1 reading', 'reading 1', 'joint side a', 'side one', 'first side', 'seite a', 'widerstand a', 'côté a', 'lado a',
    ],
    besideUnit: ['a', '1', 'one', 'end 1', 'end one', 'first', 'side a value', 'back', 'splice 1', 'position a', 'pos a', 'rdg a', 'mean a', 'average a', 'avg a', 'side a avg'],
    description: 'Resistance over the electrode span on side A, which faces structure_back.', example: '9.6',
  },
  {
    name: 'side_b_uohm', key: 'sideBUohm', ...ohms,
    synonyms: [
      'r side b', 'side b resistance', 'resistance side b', 'rb', 'r b', 'splice side b', 'side 2', 'r side 2', 'ahead side',
      'side b reading', 'b side', 'end b', 'b end', 'reading b', 'reading side b', 'splice b', 'r2', 'r 2', 'r b side', 'res b', 'res side b',
      'resistance b', 'barrel b', 'side 2 reading', 'reading 2', 'joint side b', 'side two', 'second side', 'seite b', 'widerstand b', 'côté b', 'lado b',
    ],
    besideUnit: ['b', '2', 'two', 'end 2', 'end two', 'second', 'side b value', 'ahead', 'splice 2', 'position b', 'pos b', 'rdg b', 'mean b', 'average b', 'avg b', 'side b avg'],
    description: 'Resistance over the electrode span on side B, which faces structure_ahead.', example: '10.4',
  },
  {
    name: 'conductor_uohm', key: 'conductorUohm', ...conductors,
    synonyms: [
      'conductor', 'r conductor', 'conductor resistance', 'rc', 'r c', 'reference', 'conductor reference', 'bare conductor',
      'conductor reading', 'cond', 'rcond', 'r cond', 'res cond', 'cond reading', 'cond resistance', 'resistance conductor', 'bare wire',
      'reference conductor', 'r ref', 'rref', 'conductor r', 'conductor res', 'r bare conductor', 'resistance of conductor',
    ],
    besideUnit: ['c', 'bare', 'wire', 'seil', 'leiter', 'leiterseil', 'conducteur', 'câble', 'ref', 'cable', 'control', 'solid conductor', 'reference reading', 'clear conductor', 'cond ref'],
    description: 'Resistance of the bare conductor over the conductor span.', example: '21.3',
  },
  {
    name: 'conductor_b_uohm', key: 'conductorBUohm', ...conductors,
    synonyms: ['conductor b', 'r conductor b', 'conductor 2', 'second conductor', 'conductor side b', 'conductor b resistance', 'cond b', 'cond 2'],
    description: 'The same beyond the other end of the splice, where it was taken.', example: '21.5',
  },
  {
    name: 'electrode_span_m', key: 'electrodeSpanM', ...spans,
    synonyms: ['span', 'probe spacing', 'electrode spacing', 'electrode distance', 'probe span', 'lead spacing', 'probe distance', 'test span',
      'probe gap', 'electrode gap', 'probe separation', 'contact spacing'],
    besideUnit: ['spacing', 'probes', 'electrodes', 'leads'],
    description: 'Distance between the electrodes on each side, 0.05 to 1 m (to 4 m over a whole splice shunt).', example: '0.3048',
  },
  {
    name: 'conductor_span_m', key: 'conductorSpanM', ...spans,
    synonyms: ['conductor spacing', 'conductor probe spacing', 'reference span'],
    description: 'Distance between the electrodes on the bare conductor; empty: as on the splice.', example: '0.3048',
  },
  {
    name: 'barrel_electrode_m', key: 'barrelElectrodeM', type: 'number', unit: 'm', min: 0, max: 1.5, ifBad: 'leave-out',
    synonyms: ['barrel electrode', 'inboard distance', 'electrode inboard'],
    description: 'Distance of the electrode on the barrel from the barrel\'s mouth.', example: '0.20',
  },
  {
    name: 'repeat_no', key: 'repeatNo', type: 'integer', min: 1, max: 1000, ifBad: 'leave-out',
    synonyms: ['repeat', 'rep', 'trial', 'shot', 'repeat number'],
    description: 'Which repeat with re-seated electrodes, from 1.', example: '1',
  },
  {
    name: 'test_current', key: 'testCurrent', type: 'choice', ifBad: 'leave-out',
    choices: {
      'live-ac': ['ac', 'live', 'energised', 'energized', 'line current'], 'dead-dc': ['dc', 'dead', 'de-energised', 'de-energized'],
    },
    synonyms: ['current method', 'test method', 'current type', 'ac dc'],
    description: 'live-ac: with the line\'s own current; dead-dc: dead line and a test current.', example: 'live-ac',
  },
  {
    name: 'line_current_a', key: 'lineCurrentA', type: 'number', unit: 'a', min: 0, max: 10_000, ifBad: 'leave-out',
    synonyms: ['line current', 'current', 'load', 'load current', 'amps', 'line load', 'load a', 'line amps', 'phase current', 'load amps', 'amp load', 'scada amps', 'amperage', 'phase amps', 'ckt amps',
      'circuit amps', 'amps at test', 'amps at reading', 'strom', 'leiterstrom', 'courant', 'corriente'],
    description: 'Current per phase at the reading.', example: '410',
  },
  {
    name: 'current_30min_a', key: 'current30minA', type: 'number', unit: 'a', min: 0, max: 10_000, ifBad: 'leave-out',
    synonyms: ['current 30 min', 'current 30 min before', 'load 30 min', 'previous current'],
    description: 'Current per phase half an hour before.', example: '402',
  },
  {
    name: 'splice_temp_c', key: 'spliceTempC', type: 'number', unit: 'c', min: -60, max: 600,
    synonyms: [
      'splice temp', 'splice temperature', 'joint temp', 'joint temperature', 'hot spot', 'hotspot temp', 'max temp', 'target temp', 'spl temp', 'temp splice', 'connector temp', 'sleeve temp', 'spot temp', 'component temp',
    ],
    description: 'Surface temperature of the splice as the camera showed it.', example: '41.5',
  },
  {
    name: 'conductor_temp_c', key: 'conductorTempC', type: 'number', unit: 'c', min: -60, max: 400, ifBad: 'leave-out',
    synonyms: ['conductor temp', 'conductor temperature', 'reference temp', 'reference temperature', 'ref temp', 'cond temp', 'temp conductor', 'wire temp', 'line temp'],
    description: 'Surface temperature of the reference, at least 1 m from the mouth.', example: '36.2',
  },
  {
    name: 'reference_kind', key: 'referenceKind', type: 'choice', ifBad: 'leave-out',
    choices: {
      'own-conductor': ['conductor', 'own conductor'], 'same-fitting': [
        'same fitting', 'other phase', 'phase comparison', 'similar component',
      ],
      air: ['ambient', 'ambient air'],
    },
    synonyms: ['reference type', 'temp reference'],
    description: 'What the reference temperature belongs to.', example: 'own-conductor',
  },
  {
    name: 'ambient_c', key: 'ambientC', type: 'number', unit: 'c', min: -70, max: 70, ifBad: 'leave-out',
    synonyms: ['ambient', 'ambient temp', 'ambient temperature', 'air temp', 'air temperature', 'outside temp', 'amb', 'amb temp', 'temp ambient', 'oat', 'outdoor temp', 'ambient air', 'ambient air temp'],
    besideUnit: ['temp', 'air', 'temperature', 'outside'],
    description: 'Air temperature.', example: '18',
  },
  {
    name: 'wind_m_s', key: 'windMS', type: 'number', unit: 'm_s', min: 0, max: 75, ifBad: 'leave-out',
    synonyms: ['wind', 'wind speed', 'windspeed', 'wind spd', 'wind vel', 'wind velocity', 'ws'],
    description: 'Wind speed at the line.', example: '2.5',
  },
  {
    name: 'sun', key: 'sun', type: 'choice', ifBad: 'leave-out',
    choices: {
      none: ['night', 'no', 'dark', 'shade'], diffuse: ['cloud', 'cloudy', 'overcast', 'partial', 'partly cloudy'],
      direct: ['sunny', 'full', 'clear', 'full sun', 'yes', 'bright'],
    },
    synonyms: ['sunshine', 'solar', 'sky', 'cloud cover'],
    description: 'Sun on the fitting.', example: 'diffuse',
  },
  {
    name: 'rain_1h', key: 'rain1h', type: 'boolean', ifBad: 'leave-out',
    synonyms: ['rain', 'rain within 1 h', 'rain last hour', 'precipitation', 'wet'],
    description: 'Rain, fog or snow within the hour before.', example: 'no',
  },
  {
    name: 'emissivity', key: 'emissivity', type: 'number', min: 0.01, max: 1, ifBad: 'leave-out',
    synonyms: ['emiss', 'eps', 'camera emissivity', 'emissivity setting'],
    description: 'The camera\'s setting; the true one comes from policy by age.', example: '0.70',
  },
  {
    name: 'reflected_c', key: 'reflectedC', type: 'number', unit: 'c', min: -120, max: 400, ifBad: 'leave-out',
    synonyms: ['reflected temp', 'reflected temperature', 'reflected apparent temperature', 'background temp'],
    description: 'The camera\'s setting of reflected temperature.', example: '-10',
  },
  {
    name: 'distance_m', key: 'distanceM', type: 'number', unit: 'm', min: 0.1, max: 2000, ifBad: 'leave-out',
    synonyms: ['distance', 'target distance', 'camera distance', 'object distance', 'range to target'],
    description: 'From the camera to the splice.', example: '28',
  },
  {
    name: 'view_angle_deg', key: 'viewAngleDeg', type: 'number', unit: 'deg', min: 0, max: 90, ifBad: 'leave-out',
    synonyms: ['view angle', 'viewing angle', 'angle'],
    description: 'Off the normal of the surface.', example: '30',
  },
  {
    name: 'ifov_mrad', key: 'ifovMrad', type: 'number', unit: 'mrad', min: 0.01, max: 50, ifBad: 'leave-out',
    synonyms: ['ifov', 'spatial resolution'],
    description: 'Angle of one pixel.', example: '0.68',
  },
  {
    name: 'band', key: 'band', type: 'choice', ifBad: 'leave-out',
    choices: {
      lw: ['lwir', 'long wave', 'longwave', '7.5-14 um', '8-14 um'], mw: ['mwir', 'mid wave', 'midwave', 'medium wave', '3-5 um'],
    },
    synonyms: ['camera band', 'waveband', 'spectral band'],
    description: 'lw: long wave; mw: mid wave.', example: 'lw',
  },
  {
    name: 'findings', key: 'findings', type: 'list', choices: FINDING_CHOICES,
    synonyms: ['finding', 'visual findings', 'defects', 'condition found', 'observations'],
    description: 'What the eye saw, several parted by a semicolon.', example: 'rust-bleed;bow',
  },
  {
    name: 'after_repair', key: 'afterRepair', type: 'boolean', ifBad: 'leave-out',
    synonyms: ['post repair', 'after repair reading', 'proof reading', 'repaired'],
    description: 'The reading proves a repair.', example: 'no',
  },
  {
    name: 'crew', key: 'crew', type: 'text', synonyms: ['crew id', 'crew name', 'inspector', 'operator', 'technician', 'surveyor',
      'tech', 'lineman', 'foreman', 'taken by',
      'tested by', 'measured by', 'performed by', 'inspected by', 'read by', 'shot by', 'tester', 'thermographer', 'crew no',
    ],
    description: 'Who measured; readings of one crew in time order are a track.', example: 'Crew 4',
  },
  {
    name: 'instrument', key: 'instrument', type: 'text', synonyms: [
      'instrument id', 'instrument serial', 'meter', 'meter id', 'camera', 'serial no', 'device', 'meter no', 'meter serial', 'instrument no', 'instrument serial no', 'instrument sn', 'meter sn',
      'serial number', 'tool no',
    ],
    description: 'Which instrument measured.', example: 'RM-07',
  },
  {
    name: 'photo', key: 'photo', type: 'text', synonyms: [
      'image', 'picture', 'photo id', 'photo file', 'image file', 'file name', 'thermogram', 'photo no', 'image no', 'pic', 'picture no',
    ],
    description: 'Name of the picture.', example: 'P1040.jpg',
  },
  {
    name: 'note', key: 'note', type: 'text', synonyms: ['notes', 'comment', 'comments', 'remark', 'remarks', 'description', 'bemerkung', 'remarque', 'observación'],
    description: 'Anything else.', example: 'Damper 0.6 m from the mouth',
  },
]
