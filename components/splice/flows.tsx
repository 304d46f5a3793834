import { Fragment } from 'react'
import { cx } from '@/components/ui/class-names'
import css from '@/components/ui/sheet.module.css'
import { overA, type GoverningLimit } from '@/lib/condition/governing-limit'
import { NO_TEMPERATURE_WHILE_HELD } from '@/lib/condition/words'
import type { LastLoad, SpliceDetail } from '@/lib/contract/contract'
import type { CarryingLimit } from '@/lib/contract/outlook'
import { formatCurrent, type UnitSystem } from '@/lib/units/format'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { durationText } from './age'
import { governingName, governingOf, PRESENT_MS, type Carrying } from './governing'
import { OwnTemperature } from './own-temperature'

interface Props { detail: Carrying & Pick<SpliceDetail, 'temperatures'>; system: UnitSystem; timeZone: string; nowMs: number }

const PLANNED = [
  { flow: 'expected_peak', name: 'Expected peak', by: 'Planner' }, { flow: 'post_contingency', name: 'After contingency', by: 'Planner' },
] as const

/** What flows now, at peak and after a contingency against what governs, each with when it is of and who said it, and how hot that makes the splice. */
export function Flows({ detail, system, timeZone, nowMs }: Props) {
  const { temperatures, last_load: load, outlook } = detail
  const governing = governingOf(detail)
  const heat = temperatures && temperatures.no_at_rating !== NO_TEMPERATURE_WHILE_HELD ? temperatures : null
  return (
    <section className={css.part}>
      <h2>What flows now, at peak, after a contingency</h2>
      <dl className={css.facts}>
        {load !== null && <Known load={load} governing={governing} limit={outlook?.limit ?? null} timeZone={timeZone} nowMs={nowMs} />}
        {load === null && <dt>Present flow</dt>}
        {load === null && <dd className={css.note}>not known: ask the control room.{heat && ' Without it the splice’s temperature cannot be computed.'}</dd>}
        {PLANNED.map(({ flow, name, by }) => {
          const planned = detail[flow]
          const margin = planned && governing ? marginText(governing, planned.current_a, outlook?.limit ?? null) : ''
          const over = planned !== null && governing !== null && overA(governing, planned.current_a) > 0
          return (
            <Fragment key={flow}>
              <dt>{name}</dt>
              {planned === null ? <dd className={css.note}>not known: ask the system planner.</dd> : (
                <dd>
                  <strong>{formatCurrent(planned.current_a)}</strong>
                  {margin !== '' && ': '}
                  {over ? <strong className={css.overdue}>{margin}</strong> : margin}. <span className="muted">{by}, for {formatDate(Date.parse(planned.taken_at), timeZone)}.</span>
                </dd>
              )}
            </Fragment>
          )
        })}
      </dl>
      {heat && <OwnTemperature of={heat} load={load} limitC={outlook?.limit?.splice_c ?? null} system={system} timeZone={timeZone} />}
    </section>
  )
}

/** The last known flow with its age: an old margin is not one to run on. */
function Known({ load, governing, limit, timeZone, nowMs }: { load: LastLoad; governing: GoverningLimit | null; limit: CarryingLimit | null; timeZone: string; nowMs: number }) {
  const atMs = Date.parse(load.taken_at)
  const old = nowMs - atMs >= PRESENT_MS
  const margin = governing === null ? '' : marginText(governing, load.current_a, limit)
  const over = governing !== null && overA(governing, load.current_a) > 0
  return (
    <>
      <dt>Last known flow</dt>
      <dd>
        <strong>{formatCurrent(load.current_a)}</strong>
        {load.quality !== null && <>, {load.quality}</>}, {formatDateTime(atMs, timeZone)}
        {old && `, ${durationText(nowMs - atMs)} ago`}
        {margin !== '' && <>: <span className={cx(over && css.overdue)}>{margin}{old && ' then'}</span></>}.{old && ' Ask the control room for the present flow.'}
      </dd>
    </>
  )
}

/** '46 A over the limit in force'; a lapsed limit leaves no margin to speak of. */
function marginText(governing: GoverningLimit, currentA: number, limit: CarryingLimit | null): string {
  const name = governingName(governing, limit?.section_from === 'rating' ? limit.limited_by : 'splice')
  const over = overA(governing, currentA)
  if (over > 0) return `${formatCurrent(over)} over ${name}`
  return governing.kind === 'ask-engineer' ? '' : `${formatCurrent(-over)} under ${name}`
}
