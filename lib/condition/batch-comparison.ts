import jstat from 'jstat'

/** Splices of one batch that have a class, and those of them that are degraded or worse. */
export interface BatchCount {
  batch: string
  measured: number
  failing: number
}

export interface BatchStanding extends BatchCount {
  /** Of all other measured splices, in batches or not; null where there is no other. */
  othersShare: number | null
  /** That so many or more would fail by accident if the batch were like the others, 0 to 1 (Fisher's exact test, one-sided). */
  byAccident: number
  standsOut: boolean
}

/** Fewer failing splices are no pattern (our own choice, no source). */
const LEAST_FAILING = 3
/** Of all batches together so rarely one may stand out by accident: the limit of each is this over their number (Bonferroni). */
const ACCIDENT = 0.01

/**
 * Which batches fail more than the others. A batch shares its maker's parts, filler and often its crew, so what is wrong with one may be
 * wrong with all; those of it that nobody measured are the first to measure (common practice, no source).
 * @param all measured and failing of every splice, those without a batch too
 */
export function compareBatches(batches: readonly BatchCount[], all: Pick<BatchCount, 'measured' | 'failing'>): BatchStanding[] {
  const compared = batches.map((batch) => {
    const others = all.measured - batch.measured
    const byAccident = chanceOfAsMany(batch, all)
    return {
      ...batch, byAccident, othersShare: others > 0 ? (all.failing - batch.failing) / others : null,
      standsOut: batch.failing >= LEAST_FAILING && byAccident < ACCIDENT / batches.length,
    }
  })
  return compared.sort((a, b) => Number(b.standsOut) - Number(a.standsOut) || a.byAccident - b.byAccident || (a.batch < b.batch ? -1 : 1))
}

/** Upper tail of the hypergeometric distribution. */
export function chanceOfAsMany({ measured, failing }: Pick<BatchCount, 'measured' | 'failing'>, all: Pick<BatchCount, 'measured' | 'failing'>): number {
  if (failing <= 0) return 1
  // The tail itself is summed, not one less the other end: the small chances are the ones that count.
  let chance = 0
  for (let n = failing; n <= Math.min(measured, all.failing); n++) chance += jstat.hypgeom.pdf(n, all.measured, all.failing, measured)
  return Math.min(1, chance)
}
