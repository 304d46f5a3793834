import { describe, expect, it } from 'vitest'
import {
  compileMapping, findDateOrder, guessMapping, hasSplice, headerHash, type ImportKind, KINDS, type Mapping, mappingProblems, needsDateScan,
  type RawRow, templateFields,
} from '@/lib/intake/index'
import { context, open, readFile, recordsOf, rowsOf } from '@/test/fixtures/intake/read-file'

const rows = (columns: string[], ...values: string[][]): RawRow[] =>
  values.map(
    (cells, at) => ({ row: at + 1, cells: Object.fromEntries(columns.map((column, i) => [column, cells[i] ?? ''])), raw: cells.join(',') })
  )

const fieldsOf = (columns: string[], sample: string[][] = [], kind?: ImportKind): Record<string, string> => {
  const mapping = guessMapping(columns, rows(columns, ...sample), kind)
  return Object.fromEntries(mapping.columns.filter((column) => column.field).map((column) => [column.column, column.field!]))
}

describe('the template\'s own headers', () => {
  it.each(Object.keys(KINDS) as ImportKind[])('of %s are all understood, and tell the kind', (kind) => {
    const columns = templateFields(kind).map((field) => field.name)
    const sample = kind === 'lines' ? [{ row: 1, cells: {}, raw: '', geometry: { type: 'LineString' as const, coordinates: [] } }] : []
    const mapping = guessMapping(columns, sample)
    expect(mapping.kind).toBe(kind)
    expect(
      mapping.columns.map(({ column, field, basis }) => [column, field, basis])
    ).toEqual(columns.map((column) => [column, column, 'template']))
    expect(mappingProblems(mapping, columns)).toEqual([])
  })

  it('keep their unit, whatever the header above the cells would suggest', () => {
    const mapping = guessMapping(['side_a_uohm', 'wind_m_s'], [])
    expect(mapping.columns.map((column) => column.unit)).toEqual(['uohm', 'm_s'])
  })
})

describe('a list of poles', () => {
  const columns = ['Circ', 'Pole Nbr', 'GPS X', 'GPS Y', 'Pole Type']
  const poles = rows(columns, ['RC-69-1', '1000', '-97.5', '36.2', 'dead-end'], ['RC-69-1', '1001', '-97.4978', '36.2001', 'tangent'])
  it('is one of structures', () => {
    const mapping = guessMapping(columns, poles)
    expect(mapping.kind).toBe('structures')
    expect(mapping.columns.map(({ field }) => field)).toEqual(['circuit', 'structure', 'lon', 'lat', 'structure_type'])
  })

  it('is no list of splices where nothing of a splice stands in it, whatever else fits', () => {
    const bare = ['Circuit', 'Longitude', 'Latitude', 'ID']
    expect(hasSplice(guessMapping(bare, rows(bare, ['1', '-97.5', '36.2', '9']), 'splices'))).toBe(false)
    expect(hasSplice(guessMapping([...bare, 'Phase'], rows([...bare, 'Phase'], ['1', '-97.5', '36.2', '9', 'A']), 'splices'))).toBe(true)
    expect(hasSplice(guessMapping(['Circuit', 'Splice No'], rows(['Circuit', 'Splice No'], ['1', '9']), 'splices'))).toBe(true)
  })

  it.each(['Str Nbr', 'STR_NUM', 'Tower Nr.', 'Pole #'])('may call its number %s', (header) => {
    expect(fieldsOf([header, 'lon', 'lat'], [['9', '-97.5', '36.2']], 'structures')[header]).toBe('structure')
  })
})

describe('other people\'s headers', () => {
  it('of a field log are understood, with their units', () => {
    const columns = [
      'Test No', 'Date', 'Time', 'Circuit ID', 'Str No', 'To Str', 'Phase', 'R side A (µΩ)', 'R Side B [mΩ]', 'Conductor, micro-ohm',
      'Latitude', 'Long',
      'Ambient (°F)', 'Wind mph', 'Line Current (A)', 'Weather', 'Crew',
    ]
    const mapping = guessMapping(columns, rows(columns, [
      '1', '5/14/2026', '9:26', 'KF-115-02', '45', '46', 'B', '9.6', '0.0104', '21.3', '47.5', '-112', '68', '5', '410', 'fair', 'Crew 4',
    ]))
    expect(mapping.kind).toBe('readings')
    expect(Object.fromEntries(mapping.columns.map(({ column, field, unit }) => [column, unit ? `${field} ${unit}` : field]))).toEqual({
      'Test No': 'reading_id', Date: 'taken_at', Time: 'taken_at', 'Circuit ID': 'circuit', 'Str No': 'structure_back',
      'To Str': 'structure_ahead',
      Phase: 'phase', 'R side A (µΩ)': 'side_a_uohm uohm', 'R Side B [mΩ]': 'side_b_uohm mohm',
      'Conductor, micro-ohm': 'conductor_uohm uohm',
      Latitude: 'lat', Long: 'lon', 'Ambient (°F)': 'ambient_c f', 'Wind mph': 'wind_m_s mph', 'Line Current (A)': 'line_current_a a',
      Weather: null, Crew: 'crew',
    })
    expect(mapping).toMatchObject({ dateOrder: 'mdy' })
  })

  it.each([
    ['A micro-ohm', 'side_a_uohm', 'uohm'], ['Side A (micro ohm)', 'side_a_uohm', 'uohm'], ['R_A [µΩ]', 'side_a_uohm', 'uohm'],
    ['A microhms', 'side_a_uohm', 'uohm'], ['Ra uOhm', 'side_a_uohm', 'uohm'], ['A mΩ', 'side_a_uohm', 'mohm'],
    ['A milli-ohm', 'side_a_uohm', 'mohm'], ['µΩ A', 'side_a_uohm', 'uohm'], ['micro-ohms side A', 'side_a_uohm', 'uohm'],
    ['A', 'side_a_uohm', 'uohm', '9.6 µΩ'], ['A', 'side_a_uohm', 'uohm', '0.0096 milliohm'], ['Side 1 - micro-ohms', 'side_a_uohm', 'uohm'],
    ['B (uΩ)', 'side_b_uohm', 'uohm'], ['R2 micro ohm', 'side_b_uohm', 'uohm'], ['Reading B, µΩ', 'side_b_uohm', 'uohm'],
    ['Cond. µΩ', 'conductor_uohm', 'uohm'], ['C micro-ohm', 'conductor_uohm', 'uohm'], ['Wire mΩ', 'conductor_uohm', 'mohm'],
    ['Probe spacing (in)', 'electrode_span_m', 'in'], ['Amb deg F', 'ambient_c', 'f'], ['Air temp °F', 'ambient_c', 'f'],
    ['Splice temp F', 'splice_temp_c', 'f'], ['Wind m/s', 'wind_m_s', 'm_s'], ['Wind spd mph', 'wind_m_s', 'mph'],
    ['Dist. from tower (ft)', 'offset_from_structure_m', 'ft'], ['feet from structure', 'offset_from_structure_m', 'ft'],
    ['Feet from back str', 'offset_from_structure_m', 'ft'], ['ft from back', 'offset_from_structure_m', 'ft'], ['dist from back str (ft)', 'offset_from_structure_m', 'ft'],
    ['Distance from back structure, ft', 'offset_from_structure_m', 'ft'], ['Ft ahead of str', 'offset_from_structure_m', 'ft'], ['Metres from back tower', 'offset_from_structure_m', 'm'],
    ['Load Amps', 'line_current_a', 'a'], ['Twr #', 'structure_back', undefined], ['Ckt #', 'circuit', undefined],
    ['Splice #', 'splice_id', undefined], ['Test #', 'reading_id', undefined], ['Ph.', 'phase', undefined], ['Tested by', 'crew', undefined],
    ['Meter S/N', 'instrument', undefined], ['Date tested', 'taken_at', undefined],
  ])('%s is %s in %s', (column, field, unit, cell = '') => {
    const mapped = guessMapping([column], rows([column], [cell]), 'readings').columns[0]
    expect(mapped).toMatchObject({ column, field, ...(unit && { unit }) })
  })

  it.each(['A', 'B', 'C', '1', 'Wire', 'SIDE A MOHM', 'Phase A', 'Temp'])('%s alone says too little, and is left to a person', (column) => {
    const sample = rows([column], ['9.6'], ['10.1'])
    expect(guessMapping([column], sample, 'readings').columns[0]).toMatchObject({ field: null })
  })

  it('in micro-ohms and milliohms of one file become micro-ohms', async () => {
    const file = await readFile('Test #,A micro-ohm,B milli-ohm,Cond uohm\nR-1,9.6,0.0104,21.3\n', 'readings')
    expect(recordsOf(file)).toMatchObject([{ readingKey: 'R-1', sideAUohm: 9.6, sideBUohm: 10.4, conductorUohm: 21.3 }])
    const cells = await readFile('Test #,A,B,Cond\nR-1,9.6 µΩ,0.0104 mΩ,21.3 micro-ohm\n', 'readings')
    expect(recordsOf(cells)).toMatchObject([{ readingKey: 'R-1', sideAUohm: 9.6, sideBUohm: 10.4, conductorUohm: 21.3 }])
  })

  it('of structures tell feet stations, miles and voltages', () => {
    const station = guessMapping(
      ['Tower', 'Circuit', 'Station'], rows(['Tower', 'Circuit', 'Station'], ['45', 'KF-1', '12+34.5']), 'structures'
    )
    expect(station.columns[2]).toMatchObject({ field: 'line_distance_m', unit: 'ft_station' })
    const mile = guessMapping(['Tower', 'Circuit', 'Milepost'], rows(['Tower', 'Circuit', 'Milepost'], ['45', 'KF-1', '3.2']), 'structures')
    expect(mile.columns[2]).toMatchObject({ field: 'line_distance_m', unit: 'mi' })
    const volts = guessMapping(['name', 'voltage'], rows(['name', 'voltage'], ['x', '132000;66000']), 'lines')
    expect(volts.columns[1]).toMatchObject({ field: 'voltage_kv', unit: 'v' })
  })

  it('with one wrong letter are believed, but plurals and short words are not', () => {
    expect(fieldsOf(['Lattitude', 'Longitdue'], [], 'readings')).toEqual({ Lattitude: 'lat' })
    expect(fieldsOf(['circuits', 'cables'], [], 'lines')).toEqual({})
    expect(fieldsOf(['lst', 'lan'], [], 'readings')).toEqual({})
  })

  it('that say UTC set the file\'s zone', () => {
    expect(guessMapping(['Time (UTC)', 'side_a_uohm'], [], 'readings')).toMatchObject({ timeZone: 'UTC' })
    expect(guessMapping(['Time', 'side_a_uohm'], [], 'readings').timeZone).toBeUndefined()
  })
})

describe('headers of a utility in the United States', () => {
  it.each([
    ['lines', ['Ckt Nbr', 'kV', 'Wire', 'Amps Normal', 'Amps Emerg', 'From Sub', 'To Sub', 'Max Cond Temp (F)'],
      ['circuit', 'voltage_kv', 'conductor', 'rating_a', 'rating_emergency_a', 'from', 'to', 'max_operating_c']],
    ['lines', ['Ckt No.', 'Nominal kV', 'Wire Size', 'Norm Amps', 'Emer Amps', 'Line Desc'], ['circuit', 'voltage_kv', 'conductor', 'rating_a', 'rating_emergency_a', 'line_name']],
    ['structures', ['Ckt Nbr', 'Pole Nbr', 'Framing', 'lon', 'lat'], ['circuit', 'structure', 'structure_type', 'lon', 'lat']],
    ['splices', ['Splice Nbr', 'Ckt #', 'Back Pole', 'Fwd Pole', 'Yr Installed', 'Cat No.', 'Lot Nbr'], ['splice_id', 'circuit', 'structure_back', 'structure_ahead', 'installed_on', 'fitting_type', 'batch']],
    ['readings', ['Test Nbr', 'Date Shot', 'Ckt Nbr', 'Back Str #', 'Fwd Str #', 'Probe Gap (ft)', 'Phase Amps', 'Read By'],
      ['reading_id', 'taken_at', 'circuit', 'structure_back', 'structure_ahead', 'electrode_span_m', 'line_current_a', 'crew']],
    ['readings', ['Test No.', 'When', 'Circ Nbr', 'Bk Pole', 'Next Pole Nbr', 'Probe Separation (in)'], ['reading_id', 'taken_at', 'circuit', 'structure_back', 'structure_ahead', 'electrode_span_m']],
    ['extents', ['Ckt Nbr', 'From Pole Nbr', 'To Pole Nbr', 'Date Flown', 'method'], ['circuit', 'structure_from', 'structure_to', 'surveyed_on', 'method']],
  ] as const)('of %s are understood: %j', (kind, columns, fields) => {
    expect(guessMapping(columns, [], kind).columns.map(({ field }) => field)).toEqual(fields)
  })

  it.each([
    ['readings', 'Wire'], ['readings', 'Gap (in)'], ['readings', 'kV'], ['readings', '#'], ['readings', 'No.'], ['readings', 'Year'], ['readings', 'Load MW'], ['readings', 'Max Amps'],
    ['lines', 'Rate A'], ['lines', 'Amps'], ['lines', 'MVA Normal'], ['splices', 'Year'], ['structures', 'Height (ft)'],
  ] as const)('of %s that may mean another thing are left to a person: %s', (kind, column) => {
    expect(guessMapping([column], rows([column], ['1'], ['2']), kind).columns[0]).toMatchObject({ field: null })
  })
})

describe('care', () => {
  it('leaves a field open between two columns that are as good', () => {
    const mapping = guessMapping(['Latitude', 'GPS Lat', 'side_a_uohm'], [], 'readings')
    expect(mapping.columns.filter((column) => column.field === 'lat')).toEqual([])
    expect(mapping.columns[0]).toEqual({ column: 'Latitude', field: null, basis: 'none' })
  })

  it('prefers the template\'s name to a synonym', () => {
    expect(fieldsOf(['lat', 'Latitude'], [], 'readings')).toEqual({ lat: 'lat' })
  })

  it('does not believe a header whose cells say otherwise', () => {
    const columns = ['Conductor', 'side_a_uohm', 'Date']
    expect(fieldsOf(columns, [['Drake', '9.6', 'Crew 4'], ['Drake', '9.7', 'Crew 5']], 'readings')).toEqual({ side_a_uohm: 'side_a_uohm' })
  })

  it('takes a full column for what every row needs before an empty one with a better name', () => {
    const columns = ['structure', 'ref', 'osm']
    expect(
      fieldsOf(columns, [['', '', 'node/1'], ['', '', 'node/2'], ['lattice', '', 'node/3']], 'structures')
    ).toEqual({ osm: 'structure' })
  })

  it('maps one column to one field', () => {
    for (const kind of Object.keys(KINDS) as ImportKind[]) {
      const mapped = guessMapping(
        ['circuit', 'structure', 'kind', 'method', 'date', 'line', 'name', 'id', 'type'], [], kind
      ).columns.map((column) => column.column)
      expect(new Set(mapped).size).toBe(mapped.length)
    }
  })
})

describe('what the first rows tell', () => {
  it('decimal commas and the order of dates', () => {
    const columns = ['side_a_uohm', 'taken_at']
    expect(
      guessMapping(columns, rows(columns, ['9,6', '14/05/2026'], ['10', '03/05/2026']))
    ).toMatchObject({ decimalComma: true, dateOrder: 'dmy' })
    expect(guessMapping(columns, rows(columns, ['9.6', '05/14/2026']))).toMatchObject({ decimalComma: false, dateOrder: 'mdy' })
    const open = guessMapping(columns, rows(columns, ['9,6', '03/04/2026'], ['9.6', '04/05/2026']))
    expect([open.decimalComma, open.dateOrder]).toEqual([undefined, undefined])
    expect(guessMapping(columns, rows(columns, ['1', '14/05/2026'], ['1', '05/14/2026'])).dateOrder).toBeUndefined()
  })
})

describe('a remembered mapping', () => {
  const columns = ['A', 'B', 'lat']
  const remembered = guessMapping(columns, [], 'readings')
  remembered.columns[0] = { column: 'A', field: 'side_a_uohm', unit: 'mohm', basis: 'user' }

  it('wins over any guess for the columns that the file has', () => {
    const mapping = guessMapping(columns, [], undefined, { ...remembered, timeZone: 'UTC', survey: 'Spring' })
    expect(mapping).toMatchObject({ kind: 'readings', timeZone: 'UTC', survey: 'Spring' })
    expect(mapping.columns).toEqual([
      { column: 'A', field: 'side_a_uohm', unit: 'mohm', basis: 'remembered' }, { column: 'B', field: null, basis: 'none' },
      { column: 'lat', field: 'lat', basis: 'remembered' },
    ])
  })

  it('is not used for another kind', () => {
    expect(guessMapping(columns, [], 'structures', remembered).kind).toBe('structures')
  })

  it('is found again by the columns, in their order, in any case', () => {
    expect(headerHash(['Lat', 'Lon'])).toBe(headerHash(['lat ', 'lon']))
    expect(headerHash(['lat', 'lon'])).not.toBe(headerHash(['lon', 'lat']))
    expect(headerHash(['latlon'])).not.toBe(headerHash(['lat', 'lon']))
  })
})

describe('mappings of users', () => {
  it('are told what cannot be done', () => {
    expect(mappingProblems({
      kind: 'structures', columns: [
        { column: 'A', field: 'lat' }, { column: 'B', field: 'lat' }, { column: 'C', field: 'side_a_uohm' },
        { column: 'gone', field: null },
      ],
    }, ['A', 'B', 'C'])).toEqual([
      '\'side_a_uohm\' is no field of structures.', 'The file has no column \'gone\'.',
      'No column is mapped to structure, which every row needs.', 'Several columns are mapped to lat: A, B. Keep one.',
      'Its columns are \'A\', \'B\' and \'C\'.',
    ])
  })
})

describe('mappings that cannot be meant', () => {
  const mapping = (unit: string | undefined, timeZone?: string): Mapping =>
    ({ kind: 'readings', columns: [{ column: 'A', field: 'side_a_uohm', ...(unit && { unit }) }], ...(timeZone && { timeZone }) })

  it('are told before a row is read', () => {
    expect(mappingProblems(mapping('c'), ['A'])).toEqual(['side_a_uohm is measured in µΩ, and column A is set to °C.'])
    expect(mappingProblems(mapping('parsec'), ['A'])).toEqual(['side_a_uohm is measured in µΩ, and column A is set to parsec.'])
    expect(
      mappingProblems(mapping('mohm', 'Mars/Base'), ['A'])
    ).toEqual(['\'Mars/Base\' is no time zone; write one such as America/Denver.'])
    expect(mappingProblems(mapping('mohm', 'UTC'), ['A'])).toEqual([])
  })

  it('are refused where nobody asked', () => {
    for (const wrong of [mapping('c'), mapping('parsec'), mapping('mohm', 'Mars/Base')]) {
      expect(() => compileMapping({ ...wrong, kind: 'readings' }, ['A'], context())).toThrow(RangeError)
    }
  })
})

describe('the order of day and month', () => {
  const csv = `reading_id,taken_at\n${Array.from({ length: 200 }, (_, at) => `${at},03/04/2026`).join('\n')}\n200,14/04/2026\n`

  it('is searched in the whole file where its beginning does not tell', async () => {
    const table = await open(csv)
    const first = (await rowsOf(table)).slice(0, 50) as RawRow[]
    const mapping = guessMapping(table.columns, first, 'readings')
    expect(mapping.dateOrder).toBeUndefined()
    expect(needsDateScan(mapping, first)).toBe(true)
    expect(await findDateOrder(await open(csv), mapping)).toBe('dmy')
  })

  it('is not searched for ISO dates, or where it is known', async () => {
    const table = await open('reading_id,taken_at\n1,2026-04-03\n')
    const mapping = guessMapping(table.columns, [], 'readings')
    expect(needsDateScan(mapping, rows(['taken_at'], ['2026-04-03']))).toBe(false)
    expect(needsDateScan({ ...mapping, dateOrder: 'dmy' }, rows(['taken_at'], ['03/04/2026']))).toBe(false)
    expect(await findDateOrder(table, mapping)).toBeNull()
  })
})
