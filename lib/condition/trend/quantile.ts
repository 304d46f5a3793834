import jstat from 'jstat'

const known = new Map<number, number>()

/**
 * Quantile of Student's t distribution, of the normal one for infinitely many degrees of freedom.
 * @param probability 0 … 1, exclusive
 * @param degreesOfFreedom 1 or more
 */
export function quantileOf(probability: number, degreesOfFreedom: number): number {
  // The same few are asked for again and again, and the library iterates for each.
  const key = degreesOfFreedom === Infinity ? probability : degreesOfFreedom + probability
  const found = known.get(key)
  if (found !== undefined) return found
  const quantile = degreesOfFreedom === Infinity ? jstat.normal.inv(probability, 0, 1) : jstat.studentt.inv(probability, degreesOfFreedom)
  if (known.size < 1000) known.set(key, quantile)
  return quantile
}
