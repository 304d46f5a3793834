import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { chancesOf, sharesFrom } from '@/lib/condition/classify'
import { aged, disagreement, fuse, inConflict, priorBelief, type Belief } from '@/lib/condition/posterior'
import { expectPrinted } from './printed'

/** Status of every figure here: computed with an independent reference. The prior, ln 0.65 ± 0.6, is an assumption. */
const prior = priorBelief(defaultPolicy)
const edges = { ...defaultPolicy.edges, basis: 'policy' as const }
const NO_SIGN = { overK: 1.3, odds: 1 }

const sharesOf = (belief: Belief): number[] => {
  const { sound, watch, degraded, urgent, critical } = sharesFrom(chancesOf(belief, edges, NO_SIGN))
  return [sound, watch, degraded, urgent, critical]
}

const item = (k: number, sd: number): Belief => ({ mean: Math.log(k), sd })
const chiSquare = (items: Belief[], post: Belief): number =>
  items.reduce((sum, { mean, sd }) => sum + ((mean - post.mean) / sd) ** 2, 0)

const CASES = [
  {
    name: 'nothing', items: [],
    mean: '-0.430783', sd: '0.6', median: '0.65', chi2: '0.0',
    shares: ['0.76361', '0.11239', '0.083353', '0.032533', '0.008109'],
  },
  {
    name: 'k 2 ± 0.35', items: [item(2, 0.35)],
    mean: '0.407797', sd: '0.302323', median: '1.5035', chi2: '0.66469',
    shares: ['0.088688', '0.22655', '0.4384', '0.22346', '0.022901'],
  },
  {
    name: 'two that agree', items: [item(1.9, 0.07), item(2.1, 0.35)],
    mean: '0.631797', sd: '0.0681958', median: '1.881', chi2: '0.11967',
    shares: ['9.8047e-21', '3.0265e-8', '0.40378', '0.59622', '1.2787e-8'],
  },
  {
    name: 'the forbidden average of two that conflict', items: [item(0.7, 0.07), item(2.6, 0.35)],
    mean: '-0.307816', sd: '0.0681958', median: '0.73505', chi2: '13.516',
    shares: ['1.0000', '3.1853e-6', '0.0000', '0.0000', '0.0000'],
  },
  {
    name: 'a stale one, widened only', items: [item(0.7, Math.sqrt(0.07 ** 2 + 8 * 0.0025))],
    mean: '-0.361469', sd: '0.152608', median: '0.69665', chi2: '0.00092307',
    shares: ['0.99107', '0.0089057', '2.1772e-5', '7.7808e-11', '0.0000'],
  },
]

describe.each(CASES)('believed after $name', ({ items, mean, sd, median, chi2, shares }) => {
  const post = fuse(prior, items)

  it('has the printed mean, spread and median', () => {
    expectPrinted(post.mean, mean)
    expectPrinted(post.sd, sd)
    expectPrinted(Math.exp(post.mean), median)
    expectPrinted(chiSquare(items, post), chi2)
  })

  it('parts among the classes as printed', () => {
    const found = sharesOf(post)
    // A share of 1e-20 is what is left of 1 in double precision: it is compared where it can be told from nothing.
    for (const [i, printed] of shares.entries()) {
      if (Number(printed) > 1e-12 || Number(printed) === 0) expectPrinted(found[i] ?? Number.NaN, printed)
      else expect(found[i]).toBeLessThan(1e-15)
    }
  })
})

describe('two readings that cannot both be right', () => {
  const low = item(0.7, 0.07)
  const high = item(2.6, 0.35)

  it('disagree by 13.515, over the limit of 6.63', () => {
    expectPrinted(disagreement(low, high), '13.515')
    expect(inConflict(low, high, defaultPolicy)).toBe(true)
    expect(inConflict(item(1.9, 0.07), item(2.1, 0.35), defaultPolicy)).toBe(false)
  })

  it('leave the worse one, k 1.8286', () => {
    const post = fuse(prior, [high])
    expectPrinted(Math.exp(post.mean), '1.8286')
    const printedShares = ['0.02295', '0.10660', '0.38581', '0.39610', '0.08855']
    for (const [i, printed] of printedShares.entries()) expectPrinted(sharesOf(post)[i] ?? NaN, printed)
  })
})

describe('ageing over eight years', () => {
  const old = aged(item(0.7, 0.07), 8, defaultPolicy.ageing)

  it('widens 0.07 to 0.1578', () => {
    expectPrinted(old.sd, '0.1578')
  })

  it('with drift gives k 0.87197 and 0.81533 for sound', () => {
    const post = fuse(prior, [old])
    expectPrinted(Math.exp(post.mean), '0.87197')
    expectPrinted(sharesOf(post)[0] ?? NaN, '0.81533')
  })
})
