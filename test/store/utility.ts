import { importFromStream, type Imported, type StreamToImport } from '@/lib/cases/import-from-stream'
import type { ImportReport } from '@/lib/contract/contract'
import type { ImportKind } from '@/lib/intake'
import { allScope } from '@/lib/store/all-scope'

export const scope = allScope()

/** A small invented network in open country: two circuits side by side on shared structures 12 m apart, and one alone. */
const ORIGIN = { lon: -114, lat: 47 }
const M_PER_DEG_LAT = 111_170
const M_PER_DEG_LON = 76_060

/** Degrees of a place so many metres east and north of the origin, good to a metre or two. */
export const at = (eastM: number, northM: number): { lon: number; lat: number } => ({
  lon: ORIGIN.lon + eastM / M_PER_DEG_LON, lat: ORIGIN.lat + northM / M_PER_DEG_LAT,
})

const SPAN_M = 300
const SPANS = 10
const structures = Array.from({ length: SPANS + 1 }, (_, i) => i)
const path = (northM: number) => structures.map((i) => at(i * SPAN_M, northM)).map(({ lon, lat }) => [lon, lat])

const line = (circuit: string, northM: number, more: object = {}) => ({
  type: 'Feature', geometry: { type: 'LineString', coordinates: path(northM) },
  properties: { circuit, line_name: `${circuit} line`, from: 'West', to: 'East', voltage_kv: 230, conductor: 'Drake', max_operating_c: 75, rating_a: 900, ...more },
})

export const linesFile = (features = [line('L1', 0, { lateral_offset_m: -6 }), line('L2', 0, { lateral_offset_m: 6 }), line('S1', 5_000)]): string =>
  JSON.stringify({ type: 'FeatureCollection', features })

export const lineFeature = line

export function csv(rows: readonly Record<string, string | number>[]): string {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))]
  return [columns.join(','), ...rows.map((row) => columns.map((c) => row[c] ?? '').join(','))].join('\r\n')
}

/** Structures 1 … 11 on every circuit; the first two circuits share theirs. */
export const structuresFile = (): string => csv([
  ...['L1', 'L2'].flatMap((circuit) => structures.map((i) => ({ circuit, structure: String(i + 1), ...at(i * SPAN_M, 0) }))),
  ...structures.map((i) => ({ circuit: 'S1', structure: `S${i + 1}`, ...at(i * SPAN_M, 5_000) })),
])

/** A reading beside circuit S1 `eastM` along it, on phase A, with nothing declared. */
export const reading = (id: string, eastM: number, more: Record<string, string | number> = {}): Record<string, string | number> => ({
  reading_id: id, taken_at: '2026-06-01T10:00:00Z', ...at(eastM, 5_000), gnss_accuracy_m: 3, platform: 'ground', kind: 'resistance', phase: 'A',
  side_a_uohm: 12, side_b_uohm: 11, conductor_uohm: 21.8, electrode_span_m: 0.3048, ...more,
})

export const source = (fileName: string, text: string) => ({
  fileName,
  async *open() {
    yield Buffer.from(text)
  },
})

/** Imports a text and expects it to be read. */
export async function importText(kind: ImportKind, text: string, more: Partial<StreamToImport> = {}, fileName = `${kind}.txt`): Promise<Imported> {
  const result = await importFromStream(scope, source(fileName, text), { kind, actor: 'tester', ...more })
  if (!result.ok) throw new Error(`${result.error.code}: ${result.error.message}`)
  return result.value
}

export const report = async (
  kind: ImportKind, text: string, more: Partial<StreamToImport> = {}, fileName?: string,
): Promise<ImportReport> => (await importText(kind, text, more, fileName)).report

/** Lines and structures of the small network. */
export async function buildNetwork(): Promise<void> {
  await importText('lines', linesFile())
  await importText('structures', structuresFile())
}
