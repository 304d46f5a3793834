import { createHash } from 'node:crypto'
import { filterToQuery, type SpliceFilter } from '@/lib/contract/filter'
import { surveyFilterToQuery, type SurveyFilter } from '@/lib/contract/survey-layer'
import type { Scope } from '@/lib/store/scope'
import { tileVersions, type TileVersions } from '@/lib/store/tile-sources'
import { CIRCUIT_MAX_ZOOM, circuitTileBytes } from './circuits/circuit-index'
import { currentIndexes } from './current'
import { pickedRows } from './splices/picked'
import { spliceTileBytes, type TileAddress } from './splices/splice-tile'
import { SPLICE_MAX_ZOOM } from './splices/zoom-policy'
import { currentSurvey, currentTracks } from './survey/current-survey'
import { surveyTileBytes } from './survey/survey-tile'
import { TRACK_MAX_ZOOM, trackTileBytes } from './survey/tracks'

/** Raised by hand when the same data gives other tiles, so that browsers let go of the old ones. */
const TILE_RECIPE = 4

export interface Tile {
  /** Vector tile, not compressed; no bytes where nothing is there (answer 204). */
  bytes: Uint8Array
  etag: string
}

/** Days since 1970 UTC: with the day a splice passes its re-measure. */
const today = (): number => Math.floor(Date.now() / 86_400_000)

const MAX_ZOOM = { splices: SPLICE_MAX_ZOOM, circuits: CIRCUIT_MAX_ZOOM, survey: CIRCUIT_MAX_ZOOM, tracks: TRACK_MAX_ZOOM }
export type TileLayer = keyof typeof MAX_ZOOM

function etagOf(scope: Scope, asked: string, versions: TileVersions): string {
  const rest = createHash('sha256').update(`${TILE_RECIPE}\n${today()}\n${scope.key}\n${asked}`).digest('base64url').slice(0, 12)
  return `"p${versions.policy_version}.v${versions.data_version}.${rest}"`
}

/** The ETag that a tile of what is asked for would carry now: comparing it answers 304 without cutting the tile. */
export async function etagNow(scope: Scope, asked: string): Promise<string> {
  return etagOf(scope, asked, await tileVersions(scope))
}

export const tileEtag = (scope: Scope, filter: SpliceFilter): Promise<string> => etagNow(scope, filterToQuery(filter))

/** Whether an address is one that tiles are cut for: whole numbers, zoom 0 … maxZoom, x and y within the zoom. */
export function isTileAddress({ z, x, y }: TileAddress, layer: TileLayer): boolean {
  const maxZoom = MAX_ZOOM[layer]
  return [z, x, y].every((n) => Number.isInteger(n) && n >= 0) && z <= maxZoom && x < 2 ** z && y < 2 ** z
}

/** Layers `clusters` and `splices`, see splices/splice-tile. Waits for the index when the store has just changed. */
export async function spliceTile(scope: Scope, tile: TileAddress, filter: SpliceFilter): Promise<Tile> {
  const { splices, versions } = await currentIndexes(scope)
  const index = await splices
  const picked = await pickedRows(scope, filter, index, today())
  return { bytes: spliceTileBytes(index, tile, filter, today(), picked), etag: etagOf(scope, filterToQuery(filter), versions) }
}

/** Layers `circuits`, `spans`, `structures`, `right_of_way`, `crossings`, see circuits/circuit-index. */
export async function circuitTile(scope: Scope, tile: TileAddress, filter: SpliceFilter): Promise<Tile> {
  const { splices, lines, versions } = await currentIndexes(scope)
  const [{ worstOfCircuit }, { index }] = await Promise.all([splices, lines])
  return { bytes: circuitTileBytes(index, worstOfCircuit, tile, filter), etag: etagOf(scope, filterToQuery(filter), versions) }
}

/** Layers `stretches`, `spans`, `phases`, see survey/survey-tile. */
export async function surveyTile(scope: Scope, tile: TileAddress, filter: SurveyFilter): Promise<Tile> {
  const { index, lines, far, versions } = await currentSurvey(scope)
  return { bytes: surveyTileBytes(index, lines, far, tile, filter), etag: etagOf(scope, surveyFilterToQuery(filter), versions) }
}

export const tracksAsked = (surveyIds: readonly number[]): string => `survey=${surveyIds.join(',')}`

/** Layers `tracks`, `readings`, see survey/tracks. */
export async function trackTile(scope: Scope, tile: TileAddress, surveyIds: readonly number[]): Promise<Tile> {
  const versions = await tileVersions(scope)
  const lines = await currentTracks(scope, surveyIds, versions.data_version)
  return { bytes: trackTileBytes(lines, tile), etag: etagOf(scope, tracksAsked(surveyIds), versions) }
}

/** Builds the indexes ahead of the first tile, at the start of a server. */
export async function prepareTiles(scope: Scope): Promise<void> {
  const { splices, lines } = await currentIndexes(scope)
  await Promise.all([splices, lines])
}
