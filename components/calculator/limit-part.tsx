import sheet from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import type { Assessment, Policy } from '@/lib/condition'
import { currentMeasure, formatCurrent, formatNumber, type UnitSystem } from '@/lib/units/format'
import type { Inputs } from './address'
import { limitBasis, noLimitText } from './limit-words'
import css from './calculator.module.css'

/** What the splice may carry: never a rating, and never without what it says nothing of. */
export function LimitPart({ assessment, inputs, policy, system }: { assessment: Assessment; inputs: Inputs; policy: Policy; system: UnitSystem }) {
  const { limit } = assessment
  return (
    <section className={sheet.part} aria-labelledby="limit">
      <h2 id="limit">What may it carry?</h2>
      {limit ? (
        <>
          <p className={css.limit}>
            <strong>
              <Quantity {...currentMeasure(limit.lineA)} /> per phase
              {limit.mva !== null && (
                <>
                  , <Quantity value={formatNumber(limit.mva, 0)} unit="MVA" />
                </>
              )}
            </strong>
            <span className={css.mark}>not a rating</span>
          </p>
          {inputs.i !== null && inputs.i > limit.lineA && (
            <p className={sheet.overdue}>It carried {formatCurrent(inputs.i)} when it was read: more than this.</p>
          )}
          <p className={sheet.note}>{limitBasis(limit, policy, system)}</p>
          <p className={sheet.small}>Thermal only, and advice for the rating engineer: it says nothing of tension, fault current or further ageing.</p>
        </>
      ) : (
        <p className={sheet.note}>{noLimitText(assessment, inputs)}</p>
      )}
    </section>
  )
}
