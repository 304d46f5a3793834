import { describe, expect, it } from 'vitest'
import { isIssue, open, readFile, recordsOf, rowsOf } from '@/test/fixtures/intake/read-file'

/**
 * RFC 7946 (The GeoJSON Format, August 2016): the example of section 1.5, the geometries of appendix A, and the rules of
 * sections 3.1.1, 3.1.9, 3.2, 4 and 7. Re-keyed from the text of the RFC. Status: verified.
 */
const SECTION_1_5 = {
  type: 'FeatureCollection',
  features: [
    { type: 'Feature', geometry: { type: 'Point', coordinates: [102.0, 0.5] }, properties: { prop0: 'value0' } },
    {
      type: 'Feature',
      geometry: { type: 'LineString', coordinates: [[102.0, 0.0], [103.0, 1.0], [104.0, 0.0], [105.0, 1.0]] },
      properties: { prop0: 'value0', prop1: 0.0 },
    },
    {
      type: 'Feature',
      geometry: { type: 'Polygon', coordinates: [[[100.0, 0.0], [101.0, 0.0], [101.0, 1.0], [100.0, 1.0], [100.0, 0.0]]] },
      properties: { prop0: 'value0', prop1: { this: 'that' } },
    },
  ],
}

const APPENDIX_A = {
  Point: { type: 'Point', coordinates: [100.0, 0.0] },
  LineString: { type: 'LineString', coordinates: [[100.0, 0.0], [101.0, 1.0]] },
  MultiPoint: { type: 'MultiPoint', coordinates: [[100.0, 0.0], [101.0, 1.0]] },
  MultiLineString: { type: 'MultiLineString', coordinates: [[[100.0, 0.0], [101.0, 1.0]], [[102.0, 2.0], [103.0, 3.0]]] },
  Polygon: { type: 'Polygon', coordinates: [[[100.0, 0.0], [101.0, 0.0], [101.0, 1.0], [100.0, 1.0], [100.0, 0.0]]] },
  GeometryCollection: {
    type: 'GeometryCollection',
    geometries: [{ type: 'Point', coordinates: [100.0, 0.0] }, { type: 'LineString', coordinates: [[101.0, 0.0], [102.0, 1.0]] }],
  },
}

const feature = (geometry: unknown): string => JSON.stringify({ type: 'Feature', properties: { circuit: 'A' }, geometry })

describe('RFC 7946', () => {
  it('section 1.5: a FeatureCollection with a point, a line and a polygon', async () => {
    const table = await open(JSON.stringify(SECTION_1_5, null, 2), 'x.geojson')
    const rows = await rowsOf(table)
    expect(table.columns).toEqual(['prop0', 'prop1'])
    expect(rows.map((row) => (isIssue(row) ? row.code : [row.geometry?.type, row.cells.prop0, row.cells.prop1 ?? '']))).toEqual([
      ['Point', 'value0', ''], ['LineString', 'value0', '0'], ['Polygon', 'value0', '{"this":"that"}'],
    ])
  })

  it.each(Object.entries(APPENDIX_A))('appendix A: %s, bare and in a Feature', async (type, geometry) => {
    for (const text of [JSON.stringify(geometry), feature(geometry)]) {
      const rows = await rowsOf(await open(text, 'x.geojson'))
      expect(rows).toHaveLength(1)
      expect(rows[0]).toMatchObject({ row: 1, geometry: { type } })
    }
  })

  it('section 3.1.1: more than two elements of a position are allowed, and what follows the second is not read', async () => {
    const file = await readFile(
      feature({ type: 'LineString', coordinates: [[100, 0, 10, 1], [101, 1, 20]] }), 'lines', { fileName: 'x.geojson' }
    )
    expect(recordsOf(file)[0]).toMatchObject({ pieces: [Float64Array.of(100, 0, 101, 1)] })
  })

  it('section 3.1.4: a LineString has two positions or more', async () => {
    const file = await readFile(feature({ type: 'LineString', coordinates: [[100, 1]] }), 'lines', { fileName: 'x.geojson' })
    expect(file.issues.map((issue) => issue.code)).toEqual(['no-length'])
  })

  it('section 3.1.9: a line cut at the antimeridian is a MultiLineString of two pieces', async () => {
    const cut = { type: 'MultiLineString', coordinates: [[[170.0, 45.0], [180.0, 45.0]], [[-180.0, 45.0], [-170.0, 45.0]]] }
    const file = await readFile(feature(cut), 'lines', { fileName: 'x.geojson' })
    expect(recordsOf(file)[0]).toMatchObject({ pieces: [Float64Array.of(170, 45, 180, 45), Float64Array.of(-180, 45, -170, 45)] })
  })

  it('section 3.2: geometry and properties may be null, and an id may be text or number', async () => {
    const rows = await rowsOf(await open('{"type":"Feature","id":"f1","geometry":null,"properties":null}', 'x.geojson'))
    expect(rows[0]).toMatchObject({ row: 1, geometry: undefined })
    expect(isIssue(rows[0]!) ? null : rows[0]!.cells.id).toBe('f1')
  })

  it('section 4: a crs member, of GeoJSON before the RFC, is not obeyed but told', async () => {
    const text = JSON.stringify({ ...SECTION_1_5, crs: { type: 'name', properties: { name: 'EPSG:3857' } } })
    expect((await open(text, 'x.geojson')).notes.join()).toContain('EPSG:3857')
  })

  it('section 6.1: foreign members are passed over', async () => {
    const text = JSON.stringify({ title: 'x', features_note: [1, { features: [2] }], ...SECTION_1_5, more: { a: [] } })
    expect(await rowsOf(await open(text, 'x.geojson'))).toHaveLength(3)
  })

  it('section 7.1: members of a Feature and of a FeatureCollection come in any order', async () => {
    const text = '{"features":[{"geometry":{"coordinates":[1,2],"type":"Point"},"type":"Feature","properties":{}}],'
      + '"type":"FeatureCollection"}'
    expect((await rowsOf(await open(text, 'x.geojson')))[0]).toMatchObject({ geometry: { type: 'Point', coordinates: [1, 2] } })
  })
})
