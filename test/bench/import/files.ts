import fs from 'node:fs'
import path from 'node:path'
import { metresPerLonDegree } from '@/lib/geo'

/** An invented grid: 80 circuits of 250 spans of 300 m, a splice in each span, ten readings to a splice. */
const CIRCUITS = 80
const SPANS = 250
const SPAN_M = 300
const READINGS_PER_SPLICE = 10
const M_PER_DEG_LAT = 111_200

export interface BenchFiles { lines: string; structures: string; splices: string; readings: string; rows: number }

/** A small generator of even numbers in 0 … 1, the same every time. */
function random(seed: number): () => number {
  let state = seed
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}

/** Circuits run east along parallels 2 km apart. */
function place(circuit: number, alongM: number): [lon: number, lat: number] {
  const lat = 44 + (circuit * 2_000) / M_PER_DEG_LAT
  return [-110 + alongM / metresPerLonDegree(lat), lat]
}

/** Writes the files once; a later run finds them. */
export function benchFiles(dir: string): BenchFiles {
  fs.mkdirSync(dir, { recursive: true })
  const name = (file: string) => path.join(dir, file)
  const rows = CIRCUITS * SPANS * READINGS_PER_SPLICE
  const files = { lines: name('lines.geojson'), structures: name('structures.csv'), splices: name('splices.csv'), readings: name('readings.csv'), rows }
  if (!fs.existsSync(files.readings)) write(files)
  return files
}

function write(files: BenchFiles): void {
  const circuits = Array.from({ length: CIRCUITS }, (_, c) => `C${100 + c}`)
  fs.writeFileSync(files.lines, JSON.stringify({
    type: 'FeatureCollection',
    features: circuits.map((circuit, c) => ({
      type: 'Feature', properties: { circuit, voltage_kv: 115, conductor: 'Drake', max_operating_c: 75, rating_a: 900 },
      geometry: { type: 'LineString', coordinates: Array.from({ length: SPANS + 1 }, (_, i) => place(c, i * SPAN_M)) },
    })),
  }))
  const structures = circuits.flatMap((circuit, c) => Array.from({ length: SPANS + 1 }, (_, i) => [circuit, i + 1, ...place(c, i * SPAN_M)].join(',')))
  fs.writeFileSync(files.structures, ['circuit,structure,lon,lat', ...structures].join('\n'))
  const splices: string[] = []
  const readings: string[] = [READING_COLUMNS]
  const draw = random(17)
  let row = 0
  circuits.forEach((circuit, c) => {
    for (let i = 0; i < SPANS; i++) {
      const alongM = i * SPAN_M + 60 + 180 * draw()
      const phase = 'ABC'[i % 3] ?? 'A'
      splices.push([`${circuit}-${i}`, circuit, i + 1, i + 2, alongM.toFixed(2), phase].join(','))
      const ratio = 0.45 + 0.5 * draw() + (draw() < 0.03 ? 2 * draw() : 0)
      for (let n = 0; n < READINGS_PER_SPLICE; n++) readings.push(readingLine(++row, c, i, alongM, phase, ratio, n, draw))
    }
  })
  fs.writeFileSync(files.splices, ['splice_id,circuit,structure_back,structure_ahead,line_distance_m,phase', ...splices].join('\n'))
  fs.writeFileSync(files.readings, readings.join('\r\n'))
}

const READING_COLUMNS = 'reading_id,survey,taken_at,lon,lat,gnss_accuracy_m,position_of,platform,kind,phase,side_a_uohm,side_b_uohm,conductor_uohm,'
  + 'electrode_span_m,conductor_span_m,repeat_no,test_current,line_current_a,ambient_c,wind_m_s,crew,instrument,photo,note'

/** One visit reads every splice of a circuit in order, ten minutes apart at most; ten visits on ten days. */
function readingLine(row: number, circuit: number, span: number, alongM: number, phase: string, ratio: number, visit: number, draw: () => number): string {
  const [lon, lat] = place(circuit, alongM + (draw() - 0.5) * 8)
  const taken = new Date(Date.UTC(2024, circuit % 12, 1 + visit * 2, 14, 0, span * 90))
  const uohm = (k: number) => (21.8 * k * (1 + 0.02 * (draw() - 0.5))).toFixed(1)
  return [
    `R${row}`, 'Campaign', taken.toISOString(), lon.toFixed(7), (lat + ((draw() - 0.5) * 8) / M_PER_DEG_LAT).toFixed(7), 5, 'target', 'line_platform', 'resistance',
    phase, uohm(ratio), uohm(0.5), uohm(1), 0.3048, 0.3048, 1, 'live-ac', 380, (4 + 20 * draw()).toFixed(1), (5 * draw()).toFixed(1), `Crew ${1 + (circuit % 4)}`,
    `Micro-ohmmeter ${1 + (circuit % 6)}`, '', '"Read from the platform, electrodes seated once"',
  ].join(',')
}
