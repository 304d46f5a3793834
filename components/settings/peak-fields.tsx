import { Button } from '@/components/ui/button'
import { Field } from '@/components/ui/field'
import type { SettingsJson } from '@/lib/contract/settings'
import css from './settings.module.css'

type Periods = SettingsJson['peak_periods']

const MOST = 4

/** When the lines carry most, by the clock; none means that nothing comes back by itself. */
export function PeakFields({ periods, fault, onPeriods }: { periods: Periods; fault(path: string): string | undefined; onPeriods(periods: Periods): void }) {
  const change = (at: number, part: Partial<Periods[number]>) => onPeriods(periods.map((period, i) => (i === at ? { ...period, ...part } : period)))
  return (
    <>
      {periods.map((period, i) => (
        <div key={i} className={css.letters} role="group" aria-label={`Period ${i + 1}`}>
          <Field label="From" inputMode="numeric" maxLength={5} autoComplete="off" value={period.from} error={fault(`peak_periods.${i}.from`)} onChange={(e) => change(i, { from: e.target.value })} />
          <Field label="To" inputMode="numeric" maxLength={5} autoComplete="off" value={period.to} error={fault(`peak_periods.${i}.to`)} onChange={(e) => change(i, { to: e.target.value })} />
          <div className={css.takeOut}>
            <Button size="small" onClick={() => onPeriods(periods.filter((_, other) => other !== i))}>Take out</Button>
          </div>
        </div>
      ))}
      {periods.length === 0 && <p className={css.note}>None is set: urgent and critical splices do not come back by themselves.</p>}
      {periods.length < MOST && (
        <div className={css.sets}>
          <Button size="small" onClick={() => onPeriods([...periods, { from: '14:00', to: '20:00' }])}>Add a period</Button>
        </div>
      )}
    </>
  )
}
