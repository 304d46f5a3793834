import { nameKey } from '../network/labels'
import type { Network } from '../network/network'
import type { KnownSplice, PhasingRow, PlacementOutcome, PlacingOptions, PlacingResult, PlacingSummary, PointToPlace } from '../types'
import { SpliceChooser } from './choose-splice'
import { decideAll } from './decide'
import { DeclarationReader } from './declared'
import { gatherCandidates, reachM } from './gather'
import type { Given } from './given'
import { matchAll } from './match-all'
import { gatherNewSplices } from './new-splices'
import { DEFAULT_PLACING } from './options'
import { outcomeOf } from './outcome'
import { reviewPassConflicts } from './pass-conflicts'
import { PhasingTable } from './phasing-table'
import { buildSpliceTable, rowsByLabel, type SpliceTable } from './splice-table'
import { passNumbers } from './tracks'

/** Places that are known, and outcomes that are written one at a time. */
export interface Placing extends PlacingSummary {
  /** One per point, in the order of the points, each worked out when it is asked for; to be gone through once. */
  outcomes: Iterable<PlacementOutcome>
  /** New splice of each point as an index in `newSplices`, -1: none. */
  newSpliceOf: Int32Array
}

/**
 * Places readings without keeping their outcomes: for imports of any length. Splices come as a table (built once, used again)
 * or as anything that yields them. Positions in degrees, lengths in metres. Nothing is dropped and nothing throws: what cannot
 * be placed comes back for review with its reasons.
 */
export function placeEach(
  network: Network,
  points: readonly PointToPlace[],
  splices: SpliceTable | Iterable<KnownSplice>,
  phasing: readonly PhasingRow[],
  options: Partial<PlacingOptions> = {},
): Placing {
  const all = { ...DEFAULT_PLACING, ...options }
  const table = 'sectionStart' in splices ? splices : buildSpliceTable(network, splices)
  const chooser = new SpliceChooser(table, new PhasingTable(network, phasing), all)
  const given: Given = { network, points, options: all, splices: table, chooser, passes: passNumbers(points) }
  const reader = new DeclarationReader(network, table, rowsByLabel(table, namedSplices(points)), (point) => reachM(point, all))
  const gathered = gatherCandidates(given, reader)
  const matched = matchAll(given, gathered)
  const decisions = decideAll(given, gathered)
  reviewPassConflicts(given, gathered, decisions)
  const newSplices = gatherNewSplices(given, gathered, decisions)
  const placed = { given, gathered, matched, decisions, newSplices }
  function* outcomes(): Generator<PlacementOutcome> {
    for (let i = 0; i < points.length; i++) yield outcomeOf(placed, i)
  }
  return { tracks: matched.tracks, newSplices: newSplices.splices, newSpliceOf: newSplices.of, outcomes: outcomes() }
}

/** placeEach with all outcomes in one list. */
export function placeReadings(
  network: Network,
  points: readonly PointToPlace[],
  splices: SpliceTable | Iterable<KnownSplice>,
  phasing: readonly PhasingRow[],
  options: Partial<PlacingOptions> = {},
): PlacingResult {
  const { outcomes, tracks, newSplices } = placeEach(network, points, splices, phasing, options)
  return { outcomes: [...outcomes], tracks, newSplices }
}

function namedSplices(points: readonly PointToPlace[]): Set<string> {
  const names = new Set<string>()
  for (const { spliceLabel } of points) if (spliceLabel !== undefined) names.add(nameKey(spliceLabel))
  return names
}
