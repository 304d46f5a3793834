import Papa from 'papaparse'
import type { FlightRow } from './flight-model'

const round = (value: number | null | undefined, decimals: number): string => (value == null || !Number.isFinite(value) ? '' : value.toFixed(decimals))

/** The list for a spreadsheet, in SI: names carry the units. */
export const flightCsv = (rows: readonly FlightRow[]): string => `${Papa.unparse(rows.map(({ of, currentA, standing, verdict, oneSided, ifovForDistanceMrad }) => ({
  circuit: of.circuit, section: of.name, line_name: of.line_name ?? '', conductor: of.conductor ?? '', standing,
  current_a: round(currentA, 0), rating_a: round(of.rating_a, 0), last_load_at: of.last_load?.taken_at ?? '', obstacles: verdict?.obstacles.join(';') ?? '',
  shown_k: round(verdict?.shownK, 2), needed_k: round(verdict?.neededK, 2), needed_current_a: round(verdict?.neededLineA, 0),
  needed_current_without_sun_a: round(verdict?.neededInShadeLineA, 0), one_sided_mean_ratio: round(oneSided?.meanK, 3), one_sided_shown_k: round(oneSided?.shownK, 2), greatest_distance_m: round(verdict?.greatestDistanceM, 1),
  greatest_distance_conductor_m: round(verdict?.conductorDistanceM, 1),
  ifov_for_distance_mrad: round(ifovForDistanceMrad, 3),
})), { newline: '\r\n' })}\r\n`
