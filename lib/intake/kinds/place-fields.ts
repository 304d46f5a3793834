import type { Field } from './field'
import { CIRCUIT_SIDE_CHOICES, POSITION_CHOICES } from './choices'

/** Columns that say where something is, shared by readings and splices; `key` differs, so it is given. */
export const circuitField = <Key extends string>(key: Key): Field<Key> => ({
  name: 'circuit', key, type: 'identifier',
  synonyms: [
    'circuit id', 'circuit name', 'circuit no', 'circuit number', 'ckt', 'ckt id', 'cct', 'line id', 'line no', 'line number', 'line',
    'feeder', 'leitung', 'stromkreis', 'ligne', 'línea', 'ckt no', 'ckt name', 'cct no', 'circ', 'feeder no', 'ckt number', 'circ no',
  ],
  description: 'Circuit as the utility names it; text.', example: 'KF-115-02',
})

export const sectionField = <Key extends string>(key: Key): Field<Key> => ({
  name: 'section', key, type: 'identifier',
  synonyms: ['section id', 'section name', 'line section', 'segment', 'line segment', 'tap'],
  description: 'Section of the circuit between terminals and taps; empty: the main one.', example: 'main',
})

export const structureBackField = <Key extends string>(key: Key): Field<Key> => ({
  name: 'structure_back', key, type: 'identifier',
  synonyms: [
    'back structure', 'structure from', 'from structure', 'from str', 'str from', 'str back', 'back str', 'structure', 'structure no',
    'structure number', 'structure id', 'str', 'str no', 'str number', 'tower', 'tower no', 'tower number', 'tower id', 'from tower',
    'tower from',
    'pole', 'pole no', 'pole number', 'from pole', 'start structure', 'struct', 'struct no', 'struct from', 'from struct', 'struct back', 'twr',
    'twr no', 'twr from', 'from twr', 'back tower', 'back pole', 'back span structure', 'str 1', 'structure 1', 'tower 1',
    'bk str', 'bk structure', 'bk pole', 'bk tower', 'from str no', 'from structure no', 'from pole no', 'from tower no', 'back str no', 'back structure no',
    'back pole no', 'back tower no', 'mast von', 'von mast', 'pylône de', 'torre desde',
  ],
  description: 'Structure of the lower line distance; text, so 045 and 12/3 stay as they are.', example: '045',
})

export const structureAheadField = <Key extends string>(key: Key): Field<Key> => ({
  name: 'structure_ahead', key, type: 'identifier',
  synonyms: [
    'ahead structure', 'structure to', 'to structure', 'to str', 'str to', 'str ahead', 'ahead str', 'to tower', 'tower to', 'to pole',
    'next structure', 'next tower', 'end structure', 'struct to', 'to struct', 'struct ahead', 'twr to', 'to twr', 'ahead tower', 'ahead pole',
    'next pole', 'str 2', 'structure 2', 'tower 2', 'next str', 'fwd str', 'fwd structure', 'fwd pole', 'fwd tower', 'forward str', 'forward structure',
    'forward pole', 'forward tower', 'ahd str', 'ahd pole', 'to str no', 'to structure no', 'to pole no', 'to tower no', 'ahead str no', 'ahead structure no',
    'ahead pole no', 'ahead tower no', 'fwd str no', 'fwd pole no', 'next str no', 'next pole no', 'mast bis', 'bis mast', 'pylône à', 'torre hasta',
  ],
  description: 'Structure of the higher line distance; text.', example: '046',
})

export const phaseField = <Key extends string>(key: Key): Field<Key> => ({
  name: 'phase', key, type: 'phase', ifBad: 'leave-out',
  synonyms: ['ph', 'phase id', 'conductor phase', 'phase letter', 'phs', 'phase abc', 'phase a b c', 'fase'],
  description: 'A, B or C; L1 L2 L3, 1 2 3, R S T and colours by the utility\'s setting. Empty: not known.', example: 'B',
})

export const positionField = <Key extends string>(key: Key): Field<Key> => ({
  name: 'position', key, type: 'choice', choices: POSITION_CHOICES, ifBad: 'leave-out',
  synonyms: ['conductor position', 'phase position', 'pos'],
  description: 'Where the conductor hangs, looking ahead.', example: 'top',
})

export const circuitSideField = <Key extends string>(key: Key): Field<Key> => ({
  name: 'circuit_side', key, type: 'choice', choices: CIRCUIT_SIDE_CHOICES, ifBad: 'leave-out',
  synonyms: ['side of structure', 'structure side', 'tower side'],
  description: 'Which of two circuits on one structure, looking ahead.', example: 'left',
})

export const subconductorField = <Key extends string>(key: Key): Field<Key> => ({
  name: 'subconductor', key, type: 'identifier',
  synonyms: ['sub conductor', 'bundle conductor', 'subconductor no', 'bundle position'],
  description: 'Which conductor of a bundle; empty for a single conductor.', example: '1',
})

export const lonField: Field<'lon'> = {
  name: 'lon', key: 'lon', type: 'longitude', min: -180, max: 180,
  synonyms: [
    'longitude', 'long', 'lng', 'x', 'lon dd', 'longitude dd', 'gps longitude', 'gps lon', 'gps long', 'gps x', 'easting deg', 'wgs84 lon',
  ],
  description: 'Longitude in degrees, WGS84, east positive.', example: '-112.041733',
}

export const latField: Field<'lat'> = {
  name: 'lat', key: 'lat', type: 'latitude', min: -90, max: 90,
  synonyms: ['latitude', 'y', 'lat dd', 'latitude dd', 'gps latitude', 'gps lat', 'gps y', 'northing deg', 'wgs84 lat'],
  description: 'Latitude in degrees, WGS84, north positive.', example: '47.518204',
}
