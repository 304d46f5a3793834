import { lineDistances } from '../line/polyline'
import { nameKey } from '../network/labels'
import type { GeoIssue } from '../types'
import { Chain, JOIN_M, type LoosePiece } from './chain'
import { checkPiece } from './check-piece'
import { error, metresWords, sectionName, sectionWords, warning, type AssembledSection, type LineFeature } from './line-feature'

/** A wider gap is not bridged: it would invent a span longer than spans are. */
const MOST_GAP_M = 1_500

/**
 * Joins the features of one circuit and section end to end. The first feature sets the direction; reversed pieces are
 * flipped; a gap up to 1,500 m is bridged and named; a piece that branches off or lies farther away is an error on its
 * row, and the rest is kept. Longitudes may cross ±180. Never throws on bad coordinates.
 */
export function assembleSections<F extends LineFeature>(lines: readonly F[]): { sections: AssembledSection<F>[]; issues: GeoIssue[] } {
  const issues: GeoIssue[] = []
  const groups = new Map<string, F[]>()
  for (const line of lines) {
    const key = `${nameKey(line.circuit)}\n${nameKey(sectionName(line.section))}`
    const group = groups.get(key)
    if (group) group.push(line)
    else groups.set(key, [line])
  }
  const sections: AssembledSection<F>[] = []
  for (const features of groups.values()) {
    const section = assemble(features, issues)
    if (section) sections.push(section)
  }
  return { sections, issues: issues.sort((a, b) => a.row - b.row) }
}

function assemble<F extends LineFeature>(features: readonly F[], issues: GeoIssue[]): AssembledSection<F> | undefined {
  const [first] = features
  const loose = first ? loosePieces(features, issues) : []
  const start = loose.shift()
  if (!first || !start) return undefined
  const section = sectionName(first.section)
  const where = sectionWords(first.circuit, section)
  const chain = new Chain(start.lonLat)
  const lost = new Set<number>()
  for (let join = chain.nearest(loose); join; join = chain.nearest(loose)) {
    const [piece] = loose.splice(join.piece, 1)
    if (!piece) break
    if (join.gapM > JOIN_M && chain.touchesInside(piece)) {
      lost.add(piece.row)
      issues.push(error(piece.row, 'branch', `A piece branches off ${where} between its ends.`,
        'Give a tap a section name of its own, and import it again.', { field: 'section' }))
    } else if (join.gapM > MOST_GAP_M) {
      lost.add(piece.row)
      issues.push(error(piece.row, 'piece-apart', `A piece lies ${metresWords(join.gapM)} from the rest of ${where}.`,
        'Add the missing piece between them, or give this one a section name of its own.', { field: 'section' }))
    } else {
      if (join.gapM > JOIN_M) {
        issues.push(warning(piece.row, 'gap', `The pieces of ${where} leave a gap of ${metresWords(join.gapM)}, bridged by a straight.`,
          'Check that no piece is missing there.'))
      }
      chain.add(piece.lonLat, join)
    }
  }
  const lonLat = Float64Array.from(chain.lonLat)
  const distancesM = lineDistances(lonLat)
  const kept = features.filter((feature) => !lost.has(feature.rowNo))
  return { circuit: first.circuit.trim(), section, features: kept, lonLat, distancesM, lengthM: distancesM.at(-1) ?? 0 }
}

/** All good pieces of the features; the bad and the repeated ones become issues. */
function loosePieces(features: readonly LineFeature[], issues: GeoIssue[]): LoosePiece[] {
  const loose: LoosePiece[] = []
  const seen = new Map<string, number>()
  for (const feature of features) {
    for (const piece of feature.pieces) {
      const checked = checkPiece(feature, piece)
      if (!(checked instanceof Float64Array)) {
        issues.push(checked)
        continue
      }
      const points = Array.from({ length: checked.length / 2 }, (_, i) => `${checked[2 * i]},${checked[2 * i + 1]}`)
      const ahead = points.join(' ')
      const back = points.reverse().join(' ')
      const twin = seen.get(ahead) ?? seen.get(back)
      if (twin !== undefined) {
        const where = sectionWords(feature.circuit, sectionName(feature.section))
        issues.push(warning(feature.rowNo, 'piece-twice', `The same piece of ${where} stands in row ${twin}.`,
          'It is used once; nothing needs to be done unless another piece was meant.'))
        continue
      }
      seen.set(ahead, feature.rowNo)
      loose.push({ row: feature.rowNo, lonLat: checked })
    }
  }
  return loose
}
