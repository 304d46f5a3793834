import type { Fusion, FusedSource } from './fusion'
import { YEAR_MS } from './limits'
import type { Policy } from './policy'
import { aged, fuse, priorBelief, type Belief } from './posterior'
import type { Assessment, SideAssessment } from './types'
import type { WorkingStep, WorkingValue } from './working'
import { BAYES, chanceSteps, valueOf } from './working-side'

const CARRIED = 'Infrared shows the mean of both sides; it is carried to a side by how far that side lies from the mean.'

/** How both sources were brought together: infrared as it counts today, whether both can be right, and what is believed of each side. */
export function fusionSteps({ fusion, sides, edges }: Assessment, policy: Policy, asOfMs: number): WorkingStep[] {
  const infrared = fusion?.sources.find(({ source }) => source === 'infrared')
  if (!fusion || !infrared) return []
  const resistance = fusion.sources.find(({ source }) => source === 'resistance')
  return [
    ...todaySteps(infrared, policy, asOfMs),
    ...resistance && fusion.statistic !== undefined ? [againstStep(resistance, infrared, fusion.statistic, policy)] : [],
    ...fusion.taken === 'resistance' ? [] : sides.flatMap((side) => [
      ...joinedSteps(side, resistance, infrared, policy, asOfMs), ...chanceSteps(`Side ${side.side}`, side, edges, policy),
    ]),
    ...fusion.believed ? believedSteps('Splice by infrared', fusion.believed, [ofPicture(Math.log(infrared.agedK), infrared)], policy) : [],
  ]
}

const yearsOf = (takenAtMs: number | undefined, asOfMs: number): number => (takenAtMs === undefined ? 0 : Math.max(0, (asOfMs - takenAtMs) / YEAR_MS))

function todaySteps(infrared: FusedSource, { ageing }: Policy, asOfMs: number): WorkingStep[] {
  const years = yearsOf(infrared.takenAtMs, asOfMs)
  return [
    {
      title: 'Infrared: growth since the picture', formula: 'x = ln k + g y',
      inputs: [valueOf('k', 'ratio by infrared', infrared.k), valueOf('g', 'growth per year', ageing.driftPerYear, '1/year'), valueOf('y', 'years since the picture', years, 'years')],
      result: valueOf('x', 'ln k today', Math.log(infrared.agedK)), source: 'Growth per year is a setting.',
    },
    {
      title: 'Infrared: error today', formula: 'ux = √(u² + v y)',
      inputs: [
        valueOf('u', 'standard error of ln k', infrared.uLnK), valueOf('v', 'doubt per year', ageing.variancePerYear, '1/year'), valueOf('y', 'years since the picture', years, 'years'),
      ],
      result: valueOf('ux', 'standard error of ln k today', infrared.agedULnK), source: 'Doubt per year is a setting.',
    },
  ]
}

const againstStep = (resistance: FusedSource, infrared: FusedSource, statistic: NonNullable<Fusion['statistic']>, policy: Policy): WorkingStep => ({
  title: 'Resistance against infrared', formula: 'X = (ln ka − ln kb)² / (ua² + ub²)',
  inputs: [
    valueOf('ka', 'mean of the sides today', resistance.agedK), valueOf('ua', 'its standard error of ln k', resistance.agedULnK),
    valueOf('kb', 'infrared today', infrared.agedK), valueOf('ub', 'its standard error of ln k', infrared.agedULnK),
  ],
  result: valueOf('X', `over ${policy.conflict.statistic} both cannot be right`, statistic),
  source: 'Chi-square distribution with one degree of freedom, 1 %.',
})

/** One source in the weighted mean, with what it and its error are called there. */
interface Item { x: WorkingValue; u: WorkingValue; belief: Belief }

const itemOf = (x: string, u: string, what: string, belief: Belief): Item => ({
  x: valueOf(x, what, belief.mean), u: valueOf(u, 'its standard error', belief.sd), belief,
})
const ofPicture = (lnK: number, infrared: FusedSource): Item => itemOf('xi', 'ui', 'ln k by infrared', { mean: lnK, sd: infrared.agedULnK })

/** One side: what infrared says of it, and what is believed of whatever of the two was taken. */
function joinedSteps(side: SideAssessment, resistance: FusedSource | undefined, infrared: FusedSource, policy: Policy, asOfMs: number): WorkingStep[] {
  const name = `Side ${side.side}`
  const today = aged({ mean: Math.log(side.ratio), sd: side.uRatio / side.ratio }, yearsOf(side.takenAtMs, asOfMs), policy.ageing)
  const own = itemOf('x', 'ux', 'ln k of the side today', today)
  if (!resistance) return believedSteps(name, side, [own], policy)
  const item = ofPicture(Math.log(infrared.agedK) + today.mean - Math.log(resistance.agedK), infrared)
  const carried: WorkingStep = {
    title: `${name}: what infrared says of it`, formula: 'xi = x + ln kb − ln ka',
    inputs: [valueOf('x', 'ln k of the side today', today.mean), valueOf('kb', 'infrared today', infrared.agedK), valueOf('ka', 'mean of the sides today', resistance.agedK)],
    result: item.x, source: CARRIED,
  }
  // Infrared that would only have lowered the class of a side is left out there; where both cannot be right it stands alone.
  const taken = [[own, item], [item], [own]].find((items) => isOf(side, fuse(priorBelief(policy), items.map(({ belief }) => belief))))
  if (!taken) return [carried]
  return [...taken.includes(item) ? [carried] : [], ...believedSteps(name, side, taken, policy)]
}

const isOf = ({ meanLnK, sdLnK }: SideAssessment, { mean, sd }: Belief): boolean => Math.abs(meanLnK - mean) < 1e-9 && Math.abs(sdLnK - sd) < 1e-9

function believedSteps(name: string, { meanLnK, sdLnK }: { meanLnK: number; sdLnK: number }, items: readonly Item[], policy: Policy): WorkingStep[] {
  const prior = itemOf('x0', 's0', 'ln of the ratio before measuring', priorBelief(policy))
  const all = [{ ...prior, u: { ...prior.u, meaning: 'spread before measuring' } }, ...items]
  const weights = all.map(({ u }) => `1/${u.symbol}²`).join(' + ')
  return [
    {
      title: `${name}: what is believed`, formula: `m = (${all.map(({ x, u }) => `${x.symbol}/${u.symbol}²`).join(' + ')}) / (${weights})`,
      inputs: all.flatMap(({ x, u }) => [x, u]), result: valueOf('m', 'ln k as believed', meanLnK), source: BAYES,
    },
    {
      title: `${name}: how surely`, formula: `s = 1 / √(${weights})`, inputs: all.map(({ u }) => u),
      result: valueOf('s', 'standard error of ln k as believed', sdLnK), source: BAYES,
    },
  ]
}
