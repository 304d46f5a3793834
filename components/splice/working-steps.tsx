import sheet from '@/components/ui/sheet.module.css'
import type { WorkingJson } from '@/lib/contract/outlook'
import type { UnitSystem } from '@/lib/units/format'
import { siText, valueText } from './working-text'
import css from './working.module.css'

/** Every step with its formula, values and source. */
export function WorkingSteps({ steps, system }: { steps: WorkingJson['steps']; system: UnitSystem }) {
  return (
    <ol className={css.steps}>
      {steps.map((step) => (
        <Step key={step.title} of={step} system={system} />
      ))}
    </ol>
  )
}

function Step({ of, system }: { of: WorkingJson['steps'][number]; system: UnitSystem }) {
  return (
    <li>
      <h3>{siText(of.title, system)}</h3>
      <p className={css.formula}>{of.formula}</p>
      <dl className={css.inputs}>
        {of.inputs.map((input, i) => (
          <div key={i}>
            <dt>{input.symbol}</dt>
            <dd className={css.value}>{valueText(input)}</dd>
            <dd>{siText(input.meaning, system)}</dd>
          </div>
        ))}
        <div className={css.result}>
          <dt>{of.result.symbol}</dt>
          <dd className={css.value}>{valueText(of.result)}</dd>
          <dd>{siText(of.result.meaning, system)}</dd>
        </div>
      </dl>
      <p className={sheet.small}>{siText(of.source, system)}</p>
    </li>
  )
}
