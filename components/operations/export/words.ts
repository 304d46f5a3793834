import type { CircuitSummary } from '@/lib/contract/contract'
import { filterToQuery, type SpliceFilter } from '@/lib/contract/filter'
import { formatNumber } from '@/lib/units/format'
import type { Box } from '../view-of'

export const FILES = [
  { format: 'csv', label: 'CSV', use: 'for a spreadsheet' },
  { format: 'geojson', label: 'GeoJSON', use: 'for a geographic information system' },
  { format: 'gpx', label: 'GPX', use: 'for a GNSS receiver' },
  { format: 'kml', label: 'KML', use: 'for a map viewer' },
] as const

/** Where the splices of a filter, and of a map's box, are taken from as a file; for whom is written into it. */
export function exportHref(format: (typeof FILES)[number]['format'], filter: SpliceFilter, box: Box | null, recipient = ''): string {
  const query = [filterToQuery(filter), box && `bbox=${boxText(box)}`, recipient && `recipient=${encodeURIComponent(recipient)}`].filter(Boolean).join('&')
  return `/api/v1/splices.${format}${query && `?${query}`}`
}

/** A map that shows more than the world shows all of it. Six decimals are a tenth of a metre: no mark at the edge is lost. */
export function boxText([west, south, east, north]: Box): string {
  const lon = east - west >= 360 ? [-180, 180] : [turned(west), turned(east)]
  return [lon[0], Math.max(south, -90), lon[1], Math.min(north, 90)].map((degrees) => (degrees ?? 0).toFixed(6)).join(',')
}

/** A longitude within one turn. */
const turned = (lonDeg: number): number => (Math.abs(lonDeg) <= 180 ? lonDeg : lonDeg - 360 * Math.round(lonDeg / 360))

/** '2,397 splices'. */
export const splicesText = (count: number): string => `${formatNumber(count, 0)} ${count === 1 ? 'splice' : 'splices'}`

/** 'Not among them: 2 critical, 5 urgent', or that there are none of these. */
export function leftOutText(hidden: { urgent: number; critical: number }): string {
  const parts = [hidden.critical > 0 && `${formatNumber(hidden.critical, 0)} critical`, hidden.urgent > 0 && `${formatNumber(hidden.urgent, 0)} urgent`].filter(Boolean)
  return parts.length === 0 ? 'Nothing urgent or critical is left out' : `Left out: ${parts.join(', ')}`
}

/** What of the network a picture shows: 'critical, urgent; circuits 2310, 2320; 230 kV; phase A'. */
export function filterText(filter: SpliceFilter, circuits: readonly Pick<CircuitSummary, 'id' | 'name'>[], letters: Readonly<Record<string, string>>): string {
  const { classes, circuitIds, voltagesKv, phases, confidences, surveyIds, ages, evidence } = filter
  const names = circuitIds?.map((id) => circuits.find((c) => c.id === id)?.name ?? String(id)) ?? []
  const parts = [
    classes && (classes.length === 0 ? 'no class' : classes.join(', ')),
    names.length > 0 && `${names.length === 1 ? 'circuit' : 'circuits'} ${names.join(', ')}`,
    voltagesKv?.map((kv) => `${kv} kV`).join(', '),
    phases?.map((phase) => (phase === 'unknown' ? 'phase not confirmed' : `phase ${letters[phase] ?? phase}`)).join(', '),
    confidences && `${confidences.join(', ')} confidence`,
    surveyIds && (surveyIds.length === 1 ? 'read in one survey' : `read in ${surveyIds.length} surveys`),
    ages && `years since last read: ${ages.join(', ')}`,
    evidence && `evidence: ${evidence.join(', ')}`,
  ].filter(Boolean)
  return parts.length === 0 ? 'All splices' : `Only ${parts.join('; ')}`
}
