import { createHash } from 'node:crypto'
import { compileMapping, guessMapping, hash128, openFile, type Normaliser, type RawRow, templateFields } from '@/lib/intake/index'

const COLUMNS = templateFields('readings').map((field) => field.name)
const NOW_MS = Date.UTC(2026, 8, 1)
const encoder = new TextEncoder()

/** Row of a resistance survey: 36 of the template's columns filled, as a thorough crew would. */
function rowOf(at: number): Record<string, string> {
  const back = at % 300
  return {
    reading_id: `R-${String(at).padStart(6, '0')}`, survey: '2026 spring', taken_at: new Date(1_770_000_000_000 + at * 7000).toISOString(),
    lon: (-112 - at * 1e-6).toFixed(6), lat: (47.5 + at * 1e-6).toFixed(6), gnss_accuracy_m: '4.5', position_of: 'target',
    platform: 'bucket',
    kind: 'resistance', circuit: 'KF-115-02', section: 'main', structure_back: String(back).padStart(3, '0'),
    structure_ahead: String(back + 1).padStart(3, '0'), offset_from_structure_m: '104.5', phase: 'B', position: 'top', circuit_side: 'left',
    splice_id: `SP-${at % 5000}`, side_a_uohm: (9 + (at % 7) * 0.3).toFixed(2), side_b_uohm: '10.4', conductor_uohm: '21.3',
    conductor_b_uohm: '21.5',
    electrode_span_m: '0.3048', conductor_span_m: '0.3048', repeat_no: '1', test_current: 'live-ac', line_current_a: '410',
    conductor_temp_c: '36.2',
    ambient_c: '18', wind_m_s: '2.5', sun: 'diffuse', rain_1h: 'no', after_repair: 'no', crew: 'Crew 4', instrument: 'RM-07',
    note: 'nothing to add',
  }
}

async function* csvOf(rows: number): AsyncGenerator<Uint8Array> {
  let text = `${COLUMNS.join(',')}\r\n`
  for (let at = 0; at < rows; at++) {
    const cells = rowOf(at)
    text += `${COLUMNS.map((column) => cells[column] ?? '').join(',')}\r\n`
    if (text.length < 65_536) continue
    yield encoder.encode(text)
    text = ''
  }
  yield encoder.encode(text)
}

async function* geojsonOf(features: number): AsyncGenerator<Uint8Array> {
  let text = '{"type":"FeatureCollection","features":['
  for (let at = 0; at < features; at++) {
    const { lon, lat, ...properties } = rowOf(at)
    const geometry = { type: 'Point', coordinates: [Number(lon), Number(lat)] }
    text += `${at === 0 ? '' : ',\n'}${JSON.stringify({ type: 'Feature', properties, geometry })}`
    if (text.length < 65_536) continue
    yield encoder.encode(text)
    text = ''
  }
  yield encoder.encode(`${text}]}`)
}

async function* counted(bytes: AsyncIterable<Uint8Array>, count: { bytes: number; peakRss: number }): AsyncGenerator<Uint8Array> {
  for await (const chunk of bytes) {
    count.bytes += chunk.length
    count.peakRss = Math.max(count.peakRss, process.memoryUsage().rss)
    yield chunk
  }
}

interface Run {
  rows: number
  rejected: number
  megabytes: number
  wallS: number
  cpuS: number
  peakRssMb: number
}

async function run(bytes: AsyncIterable<Uint8Array>, hash: (content: string | Uint8Array) => string): Promise<Run> {
  const count = { bytes: 0, peakRss: 0 }
  const startedMs = performance.now()
  const startedCpu = process.cpuUsage()
  const table = await openFile(counted(bytes, count), 'bench')
  let normaliser: Normaliser | undefined
  let rows = 0
  let rejected = 0
  for await (const row of table.rows) {
    normaliser ??= compileMapping(
      guessMapping(table.columns, [row as RawRow], 'readings'), table.columns, { timeZone: 'America/Denver', nowMs: NOW_MS, hash }
    )
    rows++
    if (normaliser.row(row).state === 'rejected') rejected++
  }
  const cpu = process.cpuUsage(startedCpu)
  return {
    rows, rejected, megabytes: count.bytes / 1e6, wallS: (performance.now() - startedMs) / 1000, cpuS: (cpu.user + cpu.system) / 1e6,
    peakRssMb: count.peakRss / 1e6,
  }
}

function print(name: string, { rows, rejected, megabytes, wallS, cpuS, peakRssMb }: Run): void {
  const per = (seconds: number) => Math.round(rows / seconds).toLocaleString('en-US')
  process.stdout.write(
    `${name}: ${rows.toLocaleString('en-US')} rows, ${rejected} rejected, ${megabytes.toFixed(0)} MB, ${wallS.toFixed(2)} s; `
      + `${per(wallS)} rows/s by the clock, ${per(cpuS)} per CPU second; peak RSS ${peakRssMb.toFixed(0)} MB\n`,
  )
}

/** What writing the bytes costs, to be taken off: the bench makes its own file as it goes. */
async function generate(bytes: AsyncIterable<Uint8Array>): Promise<number> {
  const started = process.cpuUsage()
  for await (const chunk of bytes) if (chunk.length < 0) return 0
  const cpu = process.cpuUsage(started)
  return (cpu.user + cpu.system) / 1e6
}

const sha256 = (content: string | Uint8Array): string => createHash('sha256').update(content).digest('hex')

process.stdout.write(`writing 200,000 rows takes ${(await generate(csvOf(200_000))).toFixed(2)} CPU s, contained in what follows\n`)
print('CSV, 12 MB', await run(csvOf(46_000), hash128))
print('CSV, 200,000 rows', await run(csvOf(200_000), hash128))
print('CSV, 200,000 rows, SHA-256', await run(csvOf(200_000), sha256))
print('CSV, 120 MB', await run(csvOf(460_000), hash128))
print('GeoJSON, 20 MB', await run(geojsonOf(24_000), hash128))
print('GeoJSON, 120 MB', await run(geojsonOf(145_000), hash128))
