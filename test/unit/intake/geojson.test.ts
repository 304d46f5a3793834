import { describe, expect, it } from 'vitest'
import { FileRefusal, type RawRow } from '@/lib/intake/index'
import { isIssue, open, readFile, recordsOf, rowsOf } from '@/test/fixtures/intake/read-file'

const feature = (geometry: unknown, properties: unknown = { circuit: 'KF-1' }): unknown => ({ type: 'Feature', properties, geometry })
const collection = (...features: unknown[]): string => JSON.stringify({ type: 'FeatureCollection', features })
const line = (...coordinates: number[][]): unknown => ({ type: 'LineString', coordinates })
const LINE = line([-112, 47], [-112.01, 47.01], [-112.02, 47.01])

const refusalOf = async (promise: Promise<unknown>): Promise<FileRefusal> => {
  const error = await promise.then(() => null, (reason: unknown) => reason)
  expect(error).toBeInstanceOf(FileRefusal)
  return error as FileRefusal
}

const readLines = (content: string) => readFile(content, 'lines', { fileName: 'lines.geojson' })

describe('features', () => {
  it('come with their properties as columns, their geometry and their text', async () => {
    const text = '{"type":"FeatureCollection","features":[ {"type":"Feature","id":7,"properties":{"circuit":"KF-1","voltage_kv":115,'
      + '"radial":false,"empty":null,"tags":["a","b"],"more":{"x":[1]}},"geometry":{"type":"Point","coordinates":[1,2]}} ]}'
    const table = await open(text, 'x.geojson')
    expect(table.columns).toEqual(['circuit', 'voltage_kv', 'radial', 'empty', 'tags', 'more', 'id'])
    const [row] = (await rowsOf(table)) as RawRow[]
    expect({ ...row!.cells }).toEqual(
      { circuit: 'KF-1', voltage_kv: '115', radial: 'false', empty: '', tags: 'a;b', more: '{"x":[1]}', id: '7' }
    )
    expect(row!.geometry).toEqual({ type: 'Point', coordinates: [1, 2] })
    expect(JSON.parse(row!.raw)).toMatchObject({ id: 7 })
  })

  it('keep ids of more digits than a number holds', async () => {
    const [row] = (
      await rowsOf(await open('{"type":"Feature","properties":{"circuit":90071992547409931234},"geometry":null}', 'x.json'))
    ) as RawRow[]
    expect(row!.cells.circuit).toBe('90071992547409931234')
  })

  it('are the same in pieces of any size', async () => {
    const text = `\uFEFF${collection(feature(LINE, { circuit: 'Å "[{' }), feature(LINE, { circuit: '\\"]}' }), feature(null, {}))}\n`
    const whole = (await rowsOf(await open(text, 'x.json', 1e6))).map((row) => row.raw)
    expect(whole).toHaveLength(3)
    for (let piece = 1; piece < 60; piece++) expect((await rowsOf(await open(text, 'x.json', piece))).map((row) => row.raw)).toEqual(whole)
  })

  it('that are broken are errors of their own, and the others are read', async () => {
    const text = `{"type":"FeatureCollection","features":[${JSON.stringify(feature(LINE))},`
      + '{"type":"Feature","properties":{"circuit":NaN},"geometry":null},'
      + `null,3,"x",{"type":"Thing"},{"type":"Feature","properties":[1],"geometry":null},${JSON.stringify(feature(LINE))}]}`
    const rows = await rowsOf(await open(text, 'x.json'))
    expect(rows.map((row) => (isIssue(row) ? row.code : 'read'))).toEqual([
      'read', 'bad-json', 'not-a-feature', 'not-a-feature', 'not-a-feature', 'not-a-feature', 'bad-properties', 'read',
    ])
    expect(rows[1]).toMatchObject({ row: 2, severity: 'error' })
    expect(rows[1]).toHaveProperty('message', expect.stringMatching(/^Feature 2: it is not valid JSON/))
  })

  it('nested without end are errors, not a crash', async () => {
    const deep = `{"type":"Feature","properties":{"x":${'['.repeat(50_000)}${']'.repeat(50_000)}},"geometry":null}`
    const rows = await rowsOf(await open(`{"type":"FeatureCollection","features":[${deep},${JSON.stringify(feature(LINE))}]}`, 'x.json'))
    expect(rows.map((row) => (isIssue(row) ? row.code : 'read'))).toEqual(['too-deep', 'read'])
  })

  it('with more than 500 properties between them are refused by name', async () => {
    const many = Object.fromEntries(Array.from({ length: 501 }, (_, at) => [`p${at}`, 1]))
    expect((await refusalOf(open(collection(feature(LINE, many)), 'x.json'))).code).toBe('too-many-columns')
  })
})

describe('files', () => {
  it('that end too early are refused, and it is said where', async () => {
    const whole = collection(feature(LINE), feature(LINE), feature(LINE))
    const refusal = await refusalOf(open(whole.slice(0, -60), 'x.json').then(rowsOf))
    expect(refusal.code).toBe('truncated')
    expect(refusal.message).toBe(`The file ends in or after feature 3, at character ${whole.length - 60}: it was cut off.`)
    expect(refusal.remedy).toBe('Copy or export the file again, whole.')
    expect((await refusalOf(open(whole.slice(0, 30), 'x.json').then(rowsOf))).code).toBe('truncated')
  })

  it('that are no objects are refused by name', async () => {
    expect((await refusalOf(open('{"type":"FeatureCollection","features":[]} trailing', 'x.json').then(rowsOf))).code).toBe('not-json')
    expect((await refusalOf(open('{"a":1}}', 'x.json').then(rowsOf))).code).toBe('not-json')
  })

  it('with an empty collection have no rows', async () => {
    const table = await open('{"type":"FeatureCollection","features":[]}', 'x.json')
    expect(await rowsOf(table)).toEqual([])
  })

  it('that name a reference system are read as WGS84, with a note', async () => {
    const crs = (name: string): string => `{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"${name}"}},"features":[]}`
    expect((await open(crs('urn:ogc:def:crs:EPSG::3857'), 'x.json')).notes.join()).toContain('\'urn:ogc:def:crs:EPSG::3857\'')
    expect((await open(crs('urn:ogc:def:crs:OGC:1.3:CRS84'), 'x.json')).notes.join()).not.toContain('reference system')
  })

  it('of several features one after the other are read', async () => {
    const rows = await rowsOf(await open(`${JSON.stringify(feature(LINE))}\n\u001e${JSON.stringify(feature(LINE))}\n`, 'x.geojsonl'))
    expect(rows.map((row) => row.row)).toEqual([1, 2])
  })
})

describe('lines', () => {
  it('become pieces of positions, third coordinates and repeats left out', async () => {
    const file = await readLines(collection(feature(line([-112, 47, 1200], [-112, 47, 1200], [-112.01, 47.01]))))
    expect(file.issues).toEqual([])
    expect(recordsOf(file)[0]).toMatchObject(
      { recordType: 'line', rowNo: 1, circuit: 'KF-1', pieces: [Float64Array.of(-112, 47, -112.01, 47.01)] }
    )
  })

  it('of several parts have several pieces', async () => {
    const multi = { type: 'MultiLineString', coordinates: [[[-112, 47], [-112.01, 47]], [[-112.02, 47], [-112.03, 47]]] }
    expect(recordsOf(await readLines(collection(feature(multi))))[0]).toMatchObject({ pieces: { length: 2 } })
  })

  it('may cross 180 degrees', async () => {
    const file = await readLines(collection(feature(line([179.99, 52], [-179.99, 52]))))
    expect(file).toMatchObject({ read: 1, issues: [] })
  })

  it('that close on themselves are read with a warning', async () => {
    const file = await readLines(collection(feature(line([-112, 47], [-112.01, 47], [-112.01, 47.01], [-112, 47]))))
    expect(file).toMatchObject({ read: 1, issues: [{ severity: 'warning', code: 'closed-line' }] })
  })

  it.each([
    ['a polygon', { type: 'Polygon', coordinates: [[[0, 1], [1, 1], [1, 2], [0, 1]]] }, 'polygon-for-line'],
    ['a multipolygon', { type: 'MultiPolygon', coordinates: [] }, 'polygon-for-line'],
    ['a collection', { type: 'GeometryCollection', geometries: [LINE] }, 'collection-for-line'],
    ['several points', { type: 'MultiPoint', coordinates: [[1, 2], [3, 4]] }, 'multipoint-for-line'],
    ['no geometry', null, 'no-geometry'], ['one position', line([1, 2]), 'no-length'],
    ['one place twice', line([1, 2], [1, 2]), 'no-length'],
    ['no positions', line(), 'no-length'], ['words', { type: 'LineString', coordinates: [['a', 'b'], [1, 2]] }, 'bad-position'],
    ['numbers in a row', { type: 'LineString', coordinates: [1, 2] }, 'bad-position'],
    ['nothing inside', { type: 'LineString' }, 'bad-position'],
    ['an unknown type', { type: 'Curve', coordinates: [] }, 'not-a-line'],
    ['latitude first', line([47, -112], [47.1, -112.1]), 'swapped-lon-lat'],
    ['a lost fix', line([-112, 47], [0, 0], [-112.1, 47]), 'position-zero'],
    ['metres', line([512345, 5261234], [512355, 5261234]), 'position-out-of-range'],
  ])('%s is rejected by name', async (_name, geometry, code) => {
    const file = await readLines(collection(feature(geometry)))
    expect(file).toMatchObject({ read: 0, rejected: 1 })
    expect(file.issues.map((issue) => issue.code)).toEqual([code])
    expect(file.issues[0]?.message).toMatch(/^Row 1, geometry: /)
    expect(file.issues[0]?.remedy).toMatch(/\.$/)
  })

  it('name the vertex that is wrong', async () => {
    const file = await readLines(collection(feature(line([-112, 47], [47, -112]))))
    expect(file.issues[0]).toMatchObject({
      value: '47, -112',
      message: 'Row 1, geometry: position 2 of the line, \'47, -112\', has the latitude -112, beyond 90 degrees: '
        + 'longitude and latitude look swapped.',
    })
  })

  it('need a circuit', async () => {
    const file = await readLines(collection(feature(LINE, { line_name: 'x' })))
    expect(file.issues).toMatchObject([{ severity: 'error', field: 'circuit', code: 'required' }])
  })

  it('carry their ratings, and leave out what cannot be', async () => {
    const file = await readLines(collection(feature(LINE, {
      circuit: 'KF-1', voltage: 115_000, conductor: 'Drake', subconductors: 1, rating_a: -5, max_operating_c: '100 °C', radial: true,
      lateral_offset_m: -6, from: 'Alder Flat', to: 'Stone Ferry',
    })))
    expect(recordsOf(file)[0]).toMatchObject({
      voltageKv: 115, conductor: 'Drake', ratingA: null, maxOperatingC: 100, radial: true, lateralOffsetM: -6, from: 'Alder Flat',
      to: 'Stone Ferry',
    })
    expect(file.issues).toMatchObject([{ severity: 'warning', field: 'rating_a', code: 'not-positive' }])
  })

  it('may stand beside points that name structures', async () => {
    const file = await readLines(collection(
      feature(LINE),
      feature({ type: 'Point', coordinates: [-112, 47] }, { circuit: 'KF-1', structure: '045', structure_type: 'suspension' }),
    ))
    expect(file.issues).toEqual([])
    expect(recordsOf(file)[1]).toMatchObject(
      { recordType: 'structure', structure: '045', circuit: 'KF-1', lon: -112, lat: 47, structureType: 'suspension' }
    )
  })
})

describe('points', () => {
  it('place readings, and columns go before them', async () => {
    const point = { type: 'Point', coordinates: [-112.5, 47.5, 1200] }
    const file = await readFile(collection(
      feature(point, { reading_id: 1, side_a_uohm: 9.6 }), feature(point, { reading_id: 2, side_a_uohm: 9.6, lon: -112, lat: 47 }),
      feature(LINE, { reading_id: 3, side_a_uohm: 9.6 }), feature(null, { reading_id: 4, side_a_uohm: 9.6 }),
    ), 'readings', { fileName: 'x.geojson' })
    expect(
      recordsOf(file).map((record) => [record.readingKey, record.lon, record.lat])
    ).toEqual([['1', -112.5, 47.5], ['2', -112, 47], ['4', null, null]])
    expect(file.issues).toMatchObject([{ row: 3, code: 'not-a-point', severity: 'error' }])
    expect(file.notes.join()).toContain('Heights and further coordinates were left out (1 row, first row 1)')
  })
})
