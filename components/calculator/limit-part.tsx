import sheet from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import { cx } from '@/components/ui/class-names'
import { useLocalText } from '@/components/ui/use-local-text'
import type { Assessment, Policy, SpliceFacts } from '@/lib/condition'
import { INFRARED_SEES_MEAN, whyNoLimit } from '@/lib/condition/no-limit'
import { restsOnPictures } from '@/lib/condition/rests-on-pictures'
import { LIMIT_CAUTION } from '@/lib/condition/words'
import { allowedMeasure, formatAllowedMva, formatCurrent, type UnitSystem } from '@/lib/units/format'
import type { Inputs } from './address'
import { assumedText, isFigure, limitBasis } from './limit-words'
import css from './calculator.module.css'

const NOT_NEEDED = 'Better than its conductor: by its resistance it does not limit its section.'

interface Props {
  assessment: Assessment
  /** The age that the current is reckoned for where no day was given, years. */
  limitYears: number
  facts: SpliceFacts
  inputs: Inputs
  policy: Policy
  system: UnitSystem
}

/** What the splice may carry: never a rating, and never without what it says nothing of. */
export function LimitPart({ assessment, limitYears, facts, inputs, policy, system }: Props) {
  const local = useLocalText()
  const { limit } = assessment
  const critical = assessment.class === 'critical'
  return (
    <section className={sheet.part} aria-labelledby="limit">
      <h2 id="limit">What may it carry?</h2>
      {limit ? (
        <>
          {critical && <p className={sheet.note}>Critical: call the control room first. This figure changes nothing about that.</p>}
          <p className={cx(css.limit, critical && css.small)}>
            <strong>
              {isFigure(limit) ? (
                <>
                  <Quantity {...allowedMeasure(limit.lineA)} /> per phase
                  {limit.mva !== null && (
                    <>
                      , <Quantity value={formatAllowedMva(limit.mva)} unit="MVA" />
                    </>
                  )}
                </>
              ) : 'What its section may carry: its rating was not given'}
            </strong>
            <span className={css.mark}>{critical ? 'for the rating engineer, not a rating' : 'not a rating'}</span>
          </p>
          {inputs.i !== null && inputs.i > limit.lineA && (
            <p className={sheet.overdue}>It carried {formatCurrent(inputs.i)} when it was read: more than this.</p>
          )}
          <p className={sheet.note}>{limitBasis(limit, policy, system)}{assumedText({ barrel: facts.barrelOdMm === undefined && inputs.by === 'resistance', limitYears })}</p>
          <p className={sheet.small}>{local(LIMIT_CAUTION)}</p>
        </>
      ) : (
        <p className={sheet.note}>{local(whyNoLimit(assessment, facts) ?? (restsOnPictures(assessment) ? INFRARED_SEES_MEAN : NOT_NEEDED))}</p>
      )}
    </section>
  )
}
