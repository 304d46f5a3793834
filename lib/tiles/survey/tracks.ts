import type { Feature, LineString, Point, Position } from 'geojson'
import GeoJSONVT from 'geojson-vt'
import { breaksTrack, DEFAULT_PLACING, type PointToPlace } from '@/lib/geo'
import type { TrackStream } from '@/lib/store/survey-layer'
import { encodeTile, EXTENT, type TileFeature } from '../encode'
import type { TileAddress } from '../splices/splice-tile'

export const TRACK_MAX_ZOOM = 16
/** Nearer than this every reading of a track has a dot. */
const READINGS_FROM_ZOOM = 12

/** The tracks of some surveys, ready to be cut into tiles. */
export interface TrackLines { tracks: GeoJSONVT; readings: GeoJSONVT }

/** Runs of readings in time order, cut where placing cuts a track. Positions as read, degrees. */
export function trackRuns(stream: TrackStream): { points: Position[]; startMs: number; endMs: number }[] {
  const runs: { points: Position[]; startMs: number; endMs: number }[] = []
  let before: PointToPlace | undefined
  for (let i = 0; i < stream.aircraft.length; i++) {
    const point = pointAt(stream, i)
    const [lon = 0, lat = 0, takenAtMs = 0] = [point.lon, point.lat, point.takenAtMs]
    const run = runs.at(-1)
    if (run && before && !breaksTrack(before, point, DEFAULT_PLACING)) {
      run.points.push([lon, lat])
      run.endMs = takenAtMs
    } else runs.push({ points: [[lon, lat]], startMs: takenAtMs, endMs: takenAtMs })
    before = point
  }
  return runs
}

const pointAt = ({ lon, lat, takenMs, sigmaM, aircraft, positionOf }: TrackStream, i: number): PointToPlace => ({
  index: i, lon: lon.readDoubleBE(8 * i), lat: lat.readDoubleBE(8 * i), takenAtMs: takenMs.readDoubleBE(8 * i), sigmaM: sigmaM.readFloatBE(4 * i), positionOf,
  platform: aircraft[i] ? 'helicopter' : undefined,
})

export function buildTracks(streams: readonly TrackStream[]): TrackLines {
  const lines: Feature<LineString>[] = []
  const dots: Feature<Point>[] = []
  for (const stream of streams) {
    const who = { survey: stream.survey, crew: stream.crew, instrument: stream.instrument, aside: stream.positionOf === 'platform' ? 1 : null }
    for (const { points, startMs, endMs } of trackRuns(stream)) {
      const properties = { ...who, start_ms: startMs, end_ms: endMs, readings: points.length }
      if (points.length > 1) lines.push({ type: 'Feature', geometry: { type: 'LineString', coordinates: points }, properties })
      for (const coordinates of points) dots.push({ type: 'Feature', geometry: { type: 'Point', coordinates }, properties: { survey: stream.survey } })
    }
  }
  const options = { maxZoom: TRACK_MAX_ZOOM, indexMaxZoom: 4, extent: EXTENT }
  return {
    tracks: new GeoJSONVT({ type: 'FeatureCollection', features: lines }, { ...options, tolerance: 3, buffer: 64 }),
    readings: new GeoJSONVT({ type: 'FeatureCollection', features: dots }, { ...options, indexMaxZoom: 0, buffer: 16 }),
  }
}

/** Vector tile with layer `tracks` (survey, crew, instrument, start_ms, end_ms, readings; drawn in time order) and from zoom 12 `readings`. */
export function trackTileBytes({ tracks, readings }: TrackLines, { z, x, y }: TileAddress): Uint8Array {
  return encodeTile({
    tracks: (tracks.getTile(z, x, y)?.features ?? []) as TileFeature[],
    readings: z < READINGS_FROM_ZOOM ? [] : ((readings.getTile(z, x, y)?.features ?? []) as TileFeature[]),
  })
}
