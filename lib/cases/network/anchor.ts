/** A span as anchoring sees it. */
export interface SpanPlace { startM: number; endM: number; structureBackId: number | null }

/** What a splice hangs on. */
export interface Anchor { structureBackId: number | null; offsetM: number; lineDistanceM: number }

/** Where a splice comes to hang on new geometry. */
export interface AnchoredPlace {
  span: number
  lineDistanceM: number
  structureBackId: number | null
  /** Ahead of structureBack, else of the section's start. */
  offsetM: number
}

/** Lengths measured twice differ by this share at the end of a section. */
const END_SHARE = 0.01

/**
 * A splice keeps its structure and offset; without a structure it keeps its offset from the section's start. Null where its
 * structure stands there no longer, or the place lies beyond the section's end by more than 1 %.
 */
export function anchorOn(
  anchor: Anchor, spans: readonly SpanPlace[], standsAtM: ReadonlyMap<number, number>, lengthM: number,
): AnchoredPlace | null {
  const fromM = anchor.structureBackId === null ? 0 : standsAtM.get(anchor.structureBackId)
  if (fromM === undefined || fromM + anchor.offsetM > lengthM * (1 + END_SHARE)) return null
  return placeAt(Math.min(fromM + anchor.offsetM, lengthM), spans)
}

/** The span that holds a line distance, and the place told from its structure. Null without spans. */
export function placeAt(lineDistanceM: number, spans: readonly SpanPlace[]): AnchoredPlace | null {
  let span = spans.findLastIndex((s) => s.startM <= lineDistanceM)
  if (span < 0) span = 0
  const found = spans[span]
  if (!found) return null
  return {
    span, lineDistanceM, structureBackId: found.structureBackId,
    offsetM: found.structureBackId === null ? lineDistanceM : Math.max(lineDistanceM - found.startM, 0),
  }
}
