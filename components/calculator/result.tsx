import { ClassMark } from '@/components/map/class-mark'
import { KAxis } from '@/components/splice/k-axis'
import workingCss from '@/components/splice/working.module.css'
import { WorkingSteps } from '@/components/splice/working-steps'
import { Icon } from '@/components/ui/icons'
import { cx } from '@/components/ui/class-names'
import sheet from '@/components/ui/sheet.module.css'
import { CLASS_WORDS, ENGINE_VERSION, type Policy } from '@/lib/condition'
import { isAtLeast } from '@/lib/condition/within-crimp'
import { formatRatio, type UnitSystem } from '@/lib/units/format'
import type { Inputs } from './address'
import { fusionOf } from './fusion-of'
import { InfraredFigures } from './infrared-figures'
import { LimitPart } from './limit-part'
import { shownRatio, type Outcome, type Reckoned } from './outcome'
import css from './calculator.module.css'

export interface ResultProps {
  outcome: Outcome
  reckoned: Reckoned
  inputs: Inputs
  policy: Policy
  system: UnitSystem
  timeZone: string
}

/** No reading judges it, and what fails in it is not electrical first. */
const UNJUDGED = 'Ask line engineering for its strength and the protection engineer for its fault duty: no reading of resistance or infrared judges them.'

/** The answer, in the order it is asked: how bad, what to do, what spoils it, by how much, what may it carry, why. */
export function Result({ outcome, reckoned, inputs, policy, system, timeZone }: ResultProps) {
  const { assessment, headline, reasons, nextActions, caution, spoils, working, conductorUnchecked } = reckoned
  const { edges, fusion } = assessment
  const shown = shownRatio(assessment)
  const [note] = assessment.infrared
  const atLeast = assessment.sides.some((one) => one.side === assessment.governingSide && isAtLeast(one))
  const acute = assessment.class === 'urgent' || assessment.class === 'critical'
  return (
    <article className={sheet.sheet} aria-label="Result">
      <header className={cx(sheet.part, sheet.head)}>
        <div className={sheet.titleRow}>
          <div>
            <h2 className={cx(sheet.title, css.class)}>
              <ClassMark class={assessment.class} size={18} />
              {reckoned.wasSound ? `Was ${CLASS_WORDS.sound.toLowerCase()}` : CLASS_WORDS[assessment.class]}
            </h2>
            <p className="muted">
              {assessment.confidence} confidence{conductorUnchecked && shown !== undefined && ', if the conductor’s reading is right: nothing checks it'}
            </p>
          </div>
          {shown !== undefined && (
            <p className={sheet.big}>
              {formatRatio(shown, [edges.watch, edges.degraded, edges.urgent, edges.critical])}
              <small>{atLeast ? 'times its conductor at least' : 'times its conductor'}</small>
            </p>
          )}
        </div>
        <p className={sheet.lead} role="status">
          {headline}
        </p>
      </header>
      {spoils.length > 0 && (
        <section className={sheet.part} aria-labelledby="spoils">
          <h2 id="spoils">What spoils this reading</h2>
          <ul className={css.spoils}>
            {spoils.map(({ code, title, text }) => (
              <li key={`${code} ${text}`}>
                <Icon name="warning" />
                <span>
                  <strong>{title}.</strong> {text}
                </span>
              </li>
            ))}
          </ul>
        </section>
      )}
      <section className={sheet.part}>
        <h2>Next</h2>
        <ol className={sheet.sentences}>
          {nextActions.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
          {nextActions.length === 0 && <li>{UNJUDGED}</li>}
        </ol>
        {acute && <p className={sheet.boxed}>Nothing typed here reaches operations: call the control room yourself, and import the reading.</p>}
        <p className={sheet.small}>{caution}</p>
      </section>
      {(assessment.sides.length > 0 || fusion) && (
        <section className={sheet.part}>
          <KAxis
            assessment={{ ...assessment, trends: assessment.trends ?? [] }}
            place={{ kind: outcome.case.facts.kind, structure_back: null, structure_ahead: null, max_operating_c: inputs.max }}
            fusion={fusionOf(assessment)}
            system={system}
            timeZone={timeZone}
            hold={null}
          />
        </section>
      )}
      <LimitPart assessment={assessment} limitYears={reckoned.limitYears} facts={outcome.case.facts} inputs={outcome.case.usable} policy={policy} system={system} />
      {note && <InfraredFigures note={note} system={system} />}
      <section className={sheet.part}>
        <h2>Why</h2>
        <ul className={sheet.sentences}>
          {reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
      </section>
      {working.length > 0 && (
        <details className={workingCss.working}>
          <summary>Show the working</summary>
          <p className={sheet.small}>In SI units. Errors are standard errors.</p>
          <WorkingSteps steps={working} system={system} />
        </details>
      )}
      <section className={sheet.part}>
        <p className={sheet.small}>
          Engine {ENGINE_VERSION}, policy {policy.version}
          {policy.procedureNo === '' ? '' : `, procedure ${policy.procedureNo}`}. {outcome.case.usable.on === null ? 'Judged as if read today' : 'Judged as of today'}; nothing is stored.
        </p>
      </section>
    </article>
  )
}
