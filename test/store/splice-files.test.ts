import { Window } from 'happy-dom'
import Papa from 'papaparse'
import { beforeAll, describe, expect, it } from 'vitest'
import { changeSettings } from '@/lib/cases/change-settings'
import { proposeLimit, stepLimit } from '@/lib/cases/current-limits'
import { exportSplices, type SpliceFileFormat, type SplicesWanted } from '@/lib/cases/export-splices'
import type { Assessment } from '@/lib/condition'
import { listCircuits } from '@/lib/store/circuits'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

const NOW = Date.UTC(2026, 10, 30, 18, 5)
/** Names that a spreadsheet, a CSV reader or an XML parser could take for something else, and a character that XML has not. */
const NAMES = ['-A7', 'A&B <"1">', 'x, "y"', 'bell \u0007', '045', 'Ω 7']

beforeAll(async () => {
  await buildNetwork()
  const rows = NAMES.map((splice_id, i) => ({ splice_id: `"${splice_id.replaceAll('"', '""')}"`, circuit: 'S1', line_distance_m: 150 + i * 300, phase: i % 2 === 0 ? 'A' : 'B' }))
  await report('splices', csv(rows))
  await report('readings', csv([reading('bad', 150, { side_a_uohm: 60, conductor_uohm: 20 }), reading('found', 2_550, { phase: 'C' })]), { survey: 'Walk' })
  await changeSettings(scope, { information_mark: 'Internal <only> & nobody else', time_zone: 'America/Denver', utility_name: 'Test "Utility" & Sons' }, 'tester')
})

async function file(format: SpliceFileFormat, wanted: SplicesWanted = { filter: {} }) {
  const { fileName, text } = await exportSplices(scope, format, wanted, 'https://lines.example.test', NOW)
  let all = ''
  for await (const part of text) all += part
  return { fileName, text: all }
}

const table = (text: string) => Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, ''), { header: true, skipEmptyLines: true })
/** A strict parser of text/xml: anything not well-formed throws or leaves an error. */
function xml(text: string) {
  const document = new (new Window().DOMParser)().parseFromString(text, 'application/xml')
  expect(document.querySelector('parsererror')).toBeNull()
  return document.documentElement
}
const names = (parent: { children: ArrayLike<{ tagName: string }> }) => Array.from(parent.children).map((child) => child.tagName)
/** Whether names come in the order of a schema's sequence, none of them unknown to it. */
const follows = (found: readonly string[], sequence: readonly string[]) => {
  const at = found.map((one) => sequence.indexOf(one))
  return at.every((place, i) => place >= 0 && (i === 0 || place >= (at[i - 1] ?? 0)))
}

describe('the splices of the list as CSV', () => {
  it('holds every splice once, with units in the names and what the file says of itself in every row', async () => {
    const { fileName, text } = await file('csv')
    expect(fileName).toBe('splices-2026-11-30.csv')
    const { data, errors } = table(text)
    expect(errors).toEqual([])
    expect(data).toHaveLength(NAMES.length + 1)
    const bad = data.find((row) => row.condition_class === 'critical')
    expect(bad).toMatchObject({
      circuit: 'S1', structure_back: 'S1', structure_ahead: 'S2', line_distance_m: '150', ratio: '3', confidence: (await listSplices(scope, { limit: 1 })).items[0]?.confidence, voltage_kv: '230', reading_count: '1',
      as_of: '2026-11-30T18:05:00.000Z', information_mark: 'Internal <only> & nobody else', caution: expect.stringMatching(/^Advice only: /), place: expect.stringContaining('phase A'),
    })
    for (const row of data) expect([row.information_mark, row.as_of]).toEqual(['Internal <only> & nobody else', '2026-11-30T18:05:00.000Z'])
  })

  it('holds no cell that a spreadsheet would run (OWASP, CSV injection)', async () => {
    // An import takes no formula for a name, but a name may have come in before that was so.
    const named = (label: string, was: string) => database().run(sql`UPDATE splice SET label = ${label} WHERE label = ${was}`)
    await named('=1+2', '045')
    const { data } = table((await file('csv')).text)
    await named('045', '=1+2')
    expect(data.map((row) => row.splice_id)).toEqual(expect.arrayContaining(['\'-A7', '\'=1+2']))
    for (const row of data) for (const cell of Object.values(row)) expect(cell).not.toMatch(/^[=+@\t\r]|^-(?!\d)/)
  })

  it('leaves the name of a splice empty that nobody has named', async () => {
    const { data } = table((await file('csv')).text)
    expect(data.filter((row) => row.splice_id === '')).toMatchObject([{ phase: 'C' }])
  })

  it('keeps to the filter and the box of the list', async () => {
    const listed = async (wanted: SplicesWanted) => (await listSplices(scope, { ...wanted, limit: 500 })).total
    const [first] = (await listSplices(scope, { limit: 1 })).items
    const box: SplicesWanted['bbox'] = [(first?.lon ?? 0) - 0.001, 46, (first?.lon ?? 0) + 0.001, 48]
    const other = (await listCircuits(scope)).find(({ name }) => name === 'L1')?.id ?? 0
    for (const wanted of [{ filter: { classes: ['critical' as const] } }, { filter: { phases: ['B'] } }, { filter: {}, bbox: box }, { filter: { circuitIds: [other] } }, { filter: { voltagesKv: [115] } }]) {
      expect(table((await file('csv', wanted)).text).data, JSON.stringify(wanted)).toHaveLength(await listed(wanted) ?? -1)
    }
  })

  it('gives the limit that operations accepted, and none before', async () => {
    const [worst] = (await listSplices(scope, { limit: 1 })).items
    const proposed = await proposeLimit(scope, worst?.id ?? 0, { line_a: 250, proposed_by: 'P. Planner', reason: 'Until it is cut out', above_advised_why: 'A trial' }, 'tester')
    if (!proposed.ok) throw new Error(proposed.error.message)
    const limits = async () => table((await file('csv', { filter: { classes: ['critical'] } })).text).data.map((row) => row.limit_line_a)
    expect(await limits()).toEqual([''])
    await stepLimit(scope, proposed.value.id, { step: 'agree', agreed_by: 'R. Rater' }, 'tester')
    expect(await stepLimit(scope, proposed.value.id, { step: 'accept', accepted_by: 'O. Operator', read_back_a: 250 }, 'tester')).toMatchObject({ ok: true })
    expect(await limits()).toEqual(['250'])
  })
})

describe('what each file says beside the class', () => {
  const said = async (wanted: SplicesWanted) => Promise.all((['csv', 'geojson', 'gpx', 'kml'] as const).map(async (format) => (await file(format, wanted)).text))

  it('is what the sheet and the list say: the advised current, the error of the ratio, the next step with its day, the call, and the sheet by its whole address', async () => {
    const [worst] = (await listSplices(scope, { limit: 1 })).items
    const sheet = await getSplice(scope, worst?.id ?? 0)
    const advisedA = sheet?.outlook?.limit?.line_a ?? NaN
    expect(advisedA).toBeGreaterThan(0)
    const [row] = table((await file('csv', { filter: { classes: ['critical'] } })).text).data
    expect(row).toMatchObject({
      advised_line_a: String(Math.round(advisedA)), next_step: worst?.watch?.next, next_step_due_at: worst?.watch?.due_at ?? '', call_state: 'not called',
      sheet: `https://lines.example.test/splices/${worst?.id}`,
    })
    expect(Number(row?.ratio_standard_uncertainty)).toBeCloseTo((sheet?.assessment as Assessment | undefined)?.sides.find(({ side }) => side === 'A')?.uRatio ?? NaN, 3)
    const [, , gpx, kml] = await said({ filter: { classes: ['critical'] } })
    for (const text of [gpx, kml]) {
      expect(text).toMatch(/ratio 3\.00 ± \d\.\d\d/)
      expect(text).toMatch(/advised [\d,]+ A per phase/)
      expect(text).toContain('not called')
      expect(text).toContain(`https://lines.example.test/splices/${worst?.id}`)
    }
  })

  it('names for whom it is and how many urgent and critical its filter leaves out', async () => {
    const all = (await listSplices(scope, { limit: 1 })).counts
    expect(all.critical).toBeGreaterThan(0)
    const wanted: SplicesWanted = { filter: { classes: ['sound', 'unknown'] }, recipient: 'R. Reader, for the outage plan' }
    const [csvText = '', geojson = '', gpx, kml] = await said(wanted)
    for (const row of table(csvText).data) expect(row).toMatchObject({ recipient: 'R. Reader, for the outage plan', left_out_critical: String(all.critical), left_out_urgent: String(all.urgent) })
    expect(JSON.parse(geojson)).toMatchObject({ recipient: 'R. Reader, for the outage plan', left_out: { critical: all.critical, urgent: all.urgent } })
    for (const text of [gpx, kml]) {
      expect(text).toContain('Recipient: R. Reader, for the outage plan.')
      expect(text).toContain(`The filter leaves out ${all.critical} critical`)
    }
  })
})

describe('the same as GeoJSON', () => {
  interface Collection { type: string; features: { type: string; geometry: { type: string; coordinates: number[] }; properties: Record<string, unknown> }[]; [member: string]: unknown }

  it('is a FeatureCollection of RFC 7946: points in longitude and latitude, no crs, its marks as foreign members and with each feature', async () => {
    const { fileName, text } = await file('geojson')
    expect(fileName).toBe('splices-2026-11-30.geojson')
    const collection = JSON.parse(text) as Collection
    expect(collection).toMatchObject({ type: 'FeatureCollection', information_mark: 'Internal <only> & nobody else', as_of: '2026-11-30T18:05:00.000Z' })
    expect(collection).not.toHaveProperty('crs') // removed from the specification, RFC 7946 section 4
    expect(collection.features).toHaveLength(NAMES.length + 1)
    for (const { type, geometry, properties, ...more } of collection.features) {
      expect([type, geometry.type, geometry.coordinates.length, more]).toEqual(['Feature', 'Point', 2, {}])
      const [lon = NaN, lat = NaN] = geometry.coordinates // section 3.1.1: longitude first
      expect(Math.abs(lon + 114)).toBeLessThan(1)
      expect(Math.abs(lat - 47)).toBeLessThan(1)
      expect(properties).toMatchObject({ information_mark: 'Internal <only> & nobody else', circuit: 'S1' })
    }
    expect(collection.features.map(({ properties }) => properties.splice_id)).toContain('-A7')
  })

  it('of a filter that nothing passes is a collection of nothing', async () => {
    expect((JSON.parse((await file('geojson', { filter: { classes: [] } })).text) as Collection).features).toEqual([])
  })
})

// TopoGrafix, GPX 1.1 schema (http://www.topografix.com/GPX/1/1/gpx.xsd), gpxType, metadataType and wptType: xsd:sequence, so the order counts.
const GPX = ['metadata', 'wpt', 'rte', 'trk', 'extensions']
const METADATA = ['name', 'desc', 'author', 'copyright', 'link', 'time', 'keywords', 'bounds', 'extensions']
const WPT = ['ele', 'time', 'magvar', 'geoidheight', 'name', 'cmt', 'desc', 'src', 'link', 'sym', 'type', 'fix', 'sat', 'hdop', 'vdop', 'pdop', 'ageofdgpsdata', 'dgpsid', 'extensions']

describe('the same as GPX', () => {
  it('is well-formed and keeps the order of the schema of GPX 1.1, with the mark in its metadata and at every waypoint', async () => {
    const { fileName, text } = await file('gpx')
    expect(fileName).toBe('splices-2026-11-30.gpx')
    const root = xml(text)
    expect([root.tagName, root.getAttribute('version'), root.getAttribute('creator'), root.getAttribute('xmlns')]).toEqual(['gpx', '1.1', 'Spanledger', 'http://www.topografix.com/GPX/1/1'])
    expect(follows(names(root), GPX)).toBe(true)
    const [metadata] = root.getElementsByTagName('metadata')
    if (!metadata) throw new Error('It has no metadata.')
    expect(follows(names(metadata), METADATA)).toBe(true)
    expect(metadata.textContent).toContain('Internal <only> & nobody else. Recipient: No recipient is named. As of 30 Nov 2026 11:05 MST. The filter leaves out nothing urgent or critical. Test "Utility" & Sons. Advice only')
    const points = Array.from(root.getElementsByTagName('wpt'))
    expect(points).toHaveLength(NAMES.length + 1)
    for (const point of points) {
      expect(follows(names(point), WPT), names(point).join()).toBe(true)
      expect(Number(point.getAttribute('lat'))).toBeCloseTo(47.045, 1)
      expect(Number(point.getAttribute('lon'))).toBeCloseTo(-114, 1)
      expect(point.getElementsByTagName('desc')[0]?.textContent).toContain('Internal <only> & nobody else')
    }
    const said = points.map((point) => point.getElementsByTagName('name')[0]?.textContent)
    for (const name of NAMES) expect(said).toContain(name.replace('\u0007', '\uFFFD'))
    expect(text).not.toMatch(/[\u0000-\u0008\u000B\u000C\u000E-\u001F]/)
  })
})

// OGC 07-147r2, KML 2.2 schema (ogckml22.xsd), AbstractFeatureType: xsd:sequence; then the features of a Document, the geometry of a Placemark.
const FEATURE = ['name', 'visibility', 'open', 'atom:author', 'atom:link', 'address', 'xal:AddressDetails', 'phoneNumber', 'snippet', 'description', 'Camera', 'LookAt',
  'TimeStamp', 'TimeSpan', 'styleUrl', 'Style', 'StyleMap', 'Region', 'ExtendedData']

describe('the same as KML', () => {
  it('is well-formed and keeps the order of the schema of KML 2.2, longitude first, with the mark on the document and every placemark', async () => {
    const { fileName, text } = await file('kml')
    expect(fileName).toBe('splices-2026-11-30.kml')
    const root = xml(text)
    expect([root.tagName, root.getAttribute('xmlns'), names(root)]).toEqual(['kml', 'http://www.opengis.net/kml/2.2', ['Document']])
    const [document] = Array.from(root.children)
    if (!document) throw new Error('It has no document.')
    // Styles are the document's own, before its features; a folder is one of these and has the same sequence (AbstractContainerType).
    expect(follows(names(document).map((name) => (name === 'Style' ? 'StyleSelector' : name)), [...FEATURE, 'StyleSelector', 'Schema', 'Folder'])).toBe(true)
    const folders = Array.from(root.getElementsByTagName('Folder'))
    expect(folders.map((folder) => folder.children[0]?.textContent)).toEqual([...new Set((await listSplices(scope, { limit: 500 })).items.map(({ circuit }) => circuit))].sort())
    for (const folder of folders) expect(follows(names(folder), [...FEATURE, 'Placemark'])).toBe(true)
    const styles = new Set(Array.from(root.getElementsByTagName('Style')).map((style) => `#${style.getAttribute('id')}`))
    // ColorStyleType, StyleType: the order of the same schema.
    for (const style of Array.from(root.getElementsByTagName('Style'))) {
      expect(names(style)).toEqual(['IconStyle', 'LabelStyle', 'LineStyle', 'PolyStyle'])
      for (const color of Array.from(style.getElementsByTagName('color'))) expect(color.textContent).toMatch(/^[0-9a-f]{8}$/)
    }
    expect(text).not.toContain('<Icon>') // none from another place
    const marks = Array.from(root.getElementsByTagName('Placemark'))
    expect(marks).toHaveLength(NAMES.length + 1)
    for (const mark of marks) {
      expect(follows(names(mark), [...FEATURE, 'MultiGeometry']), names(mark).join()).toBe(true)
      expect(styles).toContain(mark.getElementsByTagName('styleUrl')[0]?.textContent)
      for (const polygon of Array.from(mark.getElementsByTagName('Polygon'))) expect(follows(names(polygon), ['extrude', 'tessellate', 'outerBoundaryIs', 'innerBoundaryIs'])).toBe(true)
      // A LinearRing ends where it begins and has four places or more (10.8).
      for (const ring of Array.from(mark.getElementsByTagName('LinearRing'))) {
        const places = (ring.textContent ?? '').split(' ')
        expect(places.length).toBeGreaterThan(3)
        expect(places.at(-1)).toBe(places[0])
      }
      expect(mark.getElementsByTagName('coordinates')[0]?.textContent).toMatch(/^-11[34]\.\d{7},47\.\d{7}$/)
      const data = Array.from(mark.getElementsByTagName('Data'))
      expect(data.every((each) => each.hasAttribute('name') && names(each).join() === 'value')).toBe(true)
      expect(data.find((each) => each.getAttribute('name') === 'information_mark')?.textContent).toBe('Internal <only> & nobody else')
    }
    expect(root.textContent).toContain('A&B <"1">')
  })
})

describe('what is taken out and brought in again', () => {
  it.each(['csv', 'geojson'] as const)('as %s is read without an error, is known for splices by itself, and is nothing new', async (format) => {
    const before = (await listSplices(scope, { limit: 500 })).items
    const { fileName, text } = await file(format)
    const told = await report('splices', text, {}, fileName)
    expect(told).toMatchObject({ rows: NAMES.length + 1, read: NAMES.length + 1, rejected: 0, new_splices: 0 })
    expect(told.issues.filter(({ severity }) => severity === 'error')).toEqual([])
    const after = (await listSplices(scope, { limit: 500 })).items
    const kept = (items: typeof before) => items.map(({ found_by_survey: _, ...splice }) => splice)
    expect(kept(after)).toEqual(kept(before))
  })
})
