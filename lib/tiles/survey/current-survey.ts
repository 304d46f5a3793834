import type { Scope } from '@/lib/store/scope'
import { circuitPhases, lookBytes, spansInOrder, tracksOfSurveys } from '@/lib/store/survey-layer'
import type { TileVersions } from '@/lib/store/tile-sources'
import type { CircuitIndex } from '../circuits/circuit-index'
import { currentIndexes } from '../current'
import { firstYearAt, unpackLooks } from './looks'
import { buildSurveyIndex, type SurveyIndex } from './survey-index'
import type { FarLines } from './survey-tile'
import { buildTracks, type TrackLines } from './tracks'

interface Held {
  dataVersion: number
  /** Mark of the lines that the spans were read with. */
  mark: string
  index: SurveyIndex
  far: FarLines
}

const MOST_SCOPES = 4
const MOST_TRACKS = 4
// On globalThis, because bundlers give each route its own copy of a module, and one index is enough.
const shared = globalThis as typeof globalThis & { spanledgerSurvey?: { held: Map<string, Promise<Held>>; tracks: Map<string, Promise<TrackLines>> } }
const { held, tracks } = (shared.spanledgerSurvey ??= { held: new Map<string, Promise<Held>>(), tracks: new Map<string, Promise<TrackLines>>() })

async function read(scope: Scope, dataVersion: number, lines: { index: CircuitIndex; mark: string }, last: Held | undefined): Promise<Held> {
  const firstYear = firstYearAt(Date.now())
  const [spans, phasing, bytes] = await Promise.all([
    last?.mark === lines.mark ? last.index.spans : spansInOrder(scope), circuitPhases(scope), lookBytes(scope, firstYear),
  ])
  return { dataVersion, mark: lines.mark, far: new Map(), index: buildSurveyIndex(spans, lines.index.circuits, phasing, unpackLooks(bytes, firstYear)) }
}

/** The survey layer's index for the store as it stands, made when somebody first asks and kept until the store changes. */
export async function currentSurvey(scope: Scope): Promise<Held & { lines: CircuitIndex; versions: TileVersions }> {
  const { lines, versions } = await currentIndexes(scope)
  const current = await lines
  const last = held.get(scope.key)
  const before = await last?.catch(() => undefined)
  if (before && before.dataVersion >= versions.data_version) return { ...before, lines: current.index, versions }
  // Who asked first while this one waited is building it already.
  const now = held.get(scope.key)
  const building = now !== undefined && now !== last ? now : keep(held, scope.key, read(scope, versions.data_version, current, before), MOST_SCOPES)
  return { ...await building, lines: current.index, versions }
}

/** Tracks of these surveys for the store as it stands, kept for those asked last. */
export async function currentTracks(scope: Scope, surveyIds: readonly number[], dataVersion: number): Promise<TrackLines> {
  const key = [scope.key, dataVersion, ...surveyIds].join()
  const known = tracks.get(key)
  return known ?? keep(tracks, key, tracksOfSurveys(scope, surveyIds).then(buildTracks), MOST_TRACKS)
}

/** One that fails is told to those who wait and tried again by the next. */
function keep<T>(map: Map<string, Promise<T>>, key: string, made: Promise<T>, most: number): Promise<T> {
  map.delete(key)
  map.set(key, made)
  made.catch(() => { if (map.get(key) === made) map.delete(key) })
  for (const old of map.keys()) if (map.size > most) map.delete(old)
  return made
}
