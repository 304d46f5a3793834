import { YEAR_MS } from './limits'
import type { Policy } from './policy'
import { aged } from './posterior'
import type { Assessment, SideAssessment } from './types'
import type { WorkingStep, WorkingValue } from './working'

export const valueOf = (symbol: string, meaning: string, value: number, unit = ''): WorkingValue => ({ symbol, meaning, value, unit })

const PROPAGATION = 'Propagation of independent errors (ISO/IEC Guide 98-3), correlation by policy.'
const NORMAL = 'Difference of two normal errors; exact for a ratio.'
export const BAYES = 'Means weighted by 1/u²; what is believed before measuring is a setting.'

/** One side: ratio, error, ageing, what is believed and the chances over the edges. */
export function sideSteps(side: SideAssessment, { edges, fusion }: Assessment, policy: Policy, asOfMs: number): WorkingStep[] {
  const name = `Side ${side.side}`
  const uLn = side.uRatio / side.ratio
  const years = side.takenAtMs === undefined ? 0 : Math.max(0, (asOfMs - side.takenAtMs) / YEAR_MS)
  const today = aged({ mean: Math.log(side.ratio), sd: uLn }, years, policy.ageing)
  const steps: WorkingStep[] = [
    {
      title: `${name}: ratio`, formula: 'k = R / Rc',
      inputs: [valueOf('R', 'side, mean of its repeats', side.sideUohm, 'µΩ'), valueOf('Rc', 'conductor over the same span', side.conductorUohm, 'µΩ')],
      result: valueOf('k', 'ratio', side.ratio), source: 'Definition of the ratio.',
    },
    {
      title: `${name}: error`, formula: 'u = √((uR/R)² + (uc/Rc)² − 2 ρ (uR/R)(uc/Rc))',
      inputs: [
        valueOf('R', 'side', side.sideUohm, 'µΩ'), valueOf('uR', 'its standard error', side.uSideUohm, 'µΩ'),
        valueOf('Rc', 'conductor', side.conductorUohm, 'µΩ'), valueOf('uc', 'its standard error', side.uConductorUohm, 'µΩ'),
        valueOf('ρ', 'shared instrument error', policy.instrument.correlation),
      ],
      result: valueOf('u', 'standard error of ln k', uLn), source: PROPAGATION,
    },
    ...EDGE_NAMES.map((edge): WorkingStep => ({
      title: `${name}: chance of a ratio over ${edge} by the reading alone`, formula: 'P = Φ((R − t Rc) / √(uR² + t² uc² − 2 t ρ uR uc))',
      inputs: [
        valueOf('R', 'side', side.sideUohm, 'µΩ'), valueOf('uR', 'its standard error', side.uSideUohm, 'µΩ'),
        valueOf('Rc', 'conductor', side.conductorUohm, 'µΩ'), valueOf('uc', 'its standard error', side.uConductorUohm, 'µΩ'),
        valueOf('ρ', 'shared instrument error', policy.instrument.correlation), valueOf('t', `edge of ${edge}`, edges[edge]),
      ],
      result: valueOf('P', 'chance', side.pOverMeasured[edge]), source: NORMAL,
    })),
    {
      title: `${name}: growth since the reading`, formula: 'x = ln k + g y',
      inputs: [
        valueOf('k', 'ratio', side.ratio), valueOf('g', 'growth per year', policy.ageing.driftPerYear, '1/year'), valueOf('y', 'years since the reading', years, 'years'),
      ],
      result: valueOf('x', 'ln k today', today.mean), source: 'Growth per year is a setting.',
    },
    {
      title: `${name}: error today`, formula: 'ux = √(u² + v y)',
      inputs: [
        valueOf('u', 'standard error of ln k', uLn), valueOf('v', 'doubt per year', policy.ageing.variancePerYear, '1/year'),
        valueOf('y', 'years since the reading', years, 'years'),
      ],
      result: valueOf('ux', 'standard error of ln k today', today.sd), source: 'Doubt per year is a setting.',
    },
  ]
  // What infrared has a part in is joined after it.
  if (fusion === undefined || fusion.taken === 'resistance') steps.push(...believedSteps(name, side, today, policy), ...chanceSteps(name, side, edges, policy))
  return steps
}

const EDGE_NAMES = ['watch', 'degraded', 'urgent', 'critical'] as const

function believedSteps(name: string, side: SideAssessment, today: { mean: number; sd: number }, { prior }: Policy): WorkingStep[] {
  const inputs = [
    valueOf('x0', 'ln of the ratio before measuring', Math.log(prior.medianK)), valueOf('s0', 'spread before measuring', prior.sdLn),
    valueOf('x', 'ln k today', today.mean), valueOf('ux', 'standard error of ln k today', today.sd),
  ]
  return [
    {
      title: `${name}: what is believed`, formula: 'm = (x0/s0² + x/ux²) / (1/s0² + 1/ux²)', inputs,
      result: valueOf('m', 'ln k as believed', side.meanLnK), source: BAYES,
    },
    {
      title: `${name}: how surely`, formula: 's = 1 / √(1/s0² + 1/ux²)', inputs: inputs.filter(({ symbol }) => symbol === 's0' || symbol === 'ux'),
      result: valueOf('s', 'standard error of ln k as believed', side.sdLnK), source: BAYES,
    },
  ]
}

/** With signs (findings, hot pictures) the odds over their ratio are multiplied; the chance that stands on the sheet has them in it. */
export function chanceSteps(name: string, side: SideAssessment, edges: Assessment['edges'], policy: Policy): WorkingStep[] {
  return EDGE_NAMES.map((edge) => ({
    title: `${name}: chance of a ratio over ${edge} as believed`,
    formula: `P = 1 − Φ((ln t − m) / s), and with a sign the odds over ${policy.findings.overK} times its weight`,
    inputs: [
      valueOf('t', `edge of ${edge}`, edges[edge]), valueOf('m', 'ln k as believed', side.meanLnK), valueOf('s', 'its standard error', side.sdLnK),
    ],
    result: valueOf('P', 'chance', side.pOver[edge]), source: `${edge} is taken ${edge === 'urgent' || edge === 'critical' ? 'from' : 'over'} a chance of ${policy.pRules[edge]}.`,
  }))
}
