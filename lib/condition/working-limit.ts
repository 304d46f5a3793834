import { formatRatio, formatTimesIn } from '@/lib/units/format'
import type { Context } from './context'
import { limitFactsOf } from './current-limit'
import { convectedWPerM, exchangeOf, radiatedWPerM } from './heat/cooling'
import { ohmPerMAt } from './heat/line-resistance'
import type { Assessment } from './types'
import type { WorkingStep } from './working'
import { valueOf } from './working-side'

const RATING = 'Heat balance of IEEE Std 738-2012 in the rating weather of the settings.'

/** What the splice may carry: per subconductor, per phase, capped by the section. */
export function limitSteps({ limit }: Assessment, context: Context): WorkingStep[] {
  const facts = limit && limitFactsOf(context)
  if (!limit || !facts?.ok) return []
  const { conductor, barrel } = facts.value.bodies
  const exchange = exchangeOf(barrel, limit.weather)
  return [
    {
      title: 'Limit: current of a subconductor', formula: 'I = √((qc + qr − qs) / (k R))',
      inputs: [
        valueOf('qc', `convection at {${limit.spliceC} °C} in wind of {${limit.weather.windMS} m/s}`, convectedWPerM(exchange, limit.spliceC), 'W/m'),
        valueOf('qr', 'radiation', radiatedWPerM(exchange, limit.spliceC), 'W/m'), valueOf('qs', 'sun', exchange.sunWPerM, 'W/m'),
        valueOf('k', ratioName(limit, context), limit.k), valueOf('R', 'conductor at that temperature', ohmPerMAt(conductor.resistance, limit.spliceC), 'Ω/m'),
      ],
      result: valueOf('I', 'current per subconductor', limit.spliceSubconductorA, 'A'), source: RATING,
    },
    {
      title: 'Limit: current of the line', formula: 'L = min(n I, S)',
      inputs: [
        valueOf('n', 'subconductors, equal shares taken', facts.value.subconductors), valueOf('I', 'current per subconductor', limit.spliceSubconductorA, 'A'),
        valueOf('S', limit.sectionFrom === 'rating' ? 'rating of the section' : 'conductor at its own temperature in rating weather', limit.sectionA, 'A'),
      ],
      result: valueOf('L', 'line current per phase', limit.lineA, 'A'), source: 'The lowest of what stands in the current path.',
    },
  ]
}

const ratioName = ({ heldRatio }: NonNullable<Assessment['limit']>, { policy }: Context): string => {
  const lies = `ratio that it lies under ${formatTimesIn(policy.limit.upperShare)}`
  return heldRatio === undefined ? lies : `${lies}, at ratio ${formatRatio(heldRatio)}, the finding that holds it, until cleared`
}
