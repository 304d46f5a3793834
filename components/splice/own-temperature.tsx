import { cx } from '@/components/ui/class-names'
import css from '@/components/ui/sheet.module.css'
import type { LastLoad } from '@/lib/contract/contract'
import type { JointTemperaturesJson } from '@/lib/contract/temperatures'
import { formatCurrent, formatTemperature, formatTemperatureLimit, formatTimesIn, formatWholeTemperature, formatWind, type UnitSystem } from '@/lib/units/format'
import { formatDate, formatDateTime } from '@/lib/units/time'

type Reckoned = NonNullable<JointTemperaturesJson['at_load']>

/** Hotter than this a steady state is not looked for, °C. */
const HOTTEST_C = 400

interface Props {
  of: JointTemperaturesJson
  /** Null: the sheet says so beside it, once for flow and temperature. */
  load: LastLoad | null
  /** What the splice is not to pass; null where no limit is drawn. */
  limitC: number | null
  system: UnitSystem
  timeZone: string
}

/** How hot the splice itself is: at the last known load, and at its section's rating. Neither is a rating. */
export function OwnTemperature({ of, load, limitC, system, timeZone }: Props) {
  const { at_load: atLoad, no_at_load: noAtLoad, at_rating: atRating, no_at_rating: noAtRating } = of
  if (atLoad === null && atRating === null && noAtLoad === noAtRating) return <p className={css.note}>Its temperature: {noAtLoad?.replace('Cannot', 'cannot')}</p>
  // Paper is read later still: what an old load would do stays on the screen.
  const onPaper = atLoad?.weather_at ? undefined : 'no-print'
  return (
    <dl className={cx(css.facts, css.second)}>
      {load && (
        <>
          <dt className={onPaper}>{atLoad?.weather_at ? 'Splice now' : 'At its last load'}</dt>
          <dd className={onPaper}>
            {atLoad === null ? noAtLoad : (
              <>
                <strong>{degreesText(atLoad, of.upper_share, system)}</strong> at {formatCurrent(atLoad.line_a)}, {weatherText(atLoad, load, system, timeZone)}
              </>
            )}
          </dd>
        </>
      )}
      <dt>At section rating</dt>
      <dd>
        {atRating === null ? noAtRating : (
          <>
            <strong>{degreesText(atRating, of.upper_share, system)}</strong> at {formatCurrent(atRating.line_a)} in rating weather
            {limitC !== null && <span className={cx('no-print', css.saidBeside)}>; not to pass {formatTemperatureLimit(limitC, system)}</span>}.
          </>
        )}
      </dd>
    </dl>
  )
}

/** '262 °F believed, 9 times in 10 under 274 °F'; a splice without a steady state below the end of the balance has none. */
export function degreesText({ believed_c: believedC, upper_c: upperC }: Pick<Reckoned, 'believed_c' | 'upper_c'>, share: number, system: UnitSystem): string {
  const degrees = (c: number) => formatWholeTemperature(c, system)
  if (believedC === null) return `no steady state below ${degrees(HOTTEST_C)}`
  if (upperC === null) return `${degrees(believedC)}, and perhaps no steady state below ${degrees(HOTTEST_C)}`
  return degrees(believedC) === degrees(upperC) ? degrees(believedC) : `${degrees(believedC)} believed, ${formatTimesIn(share)} under ${degrees(upperC)}`
}

/** Old flow in rating weather is not called now: it is what that flow would do on a hot, still day. */
function weatherText({ ambient_c: ambientC, wind_m_s: windMS, weather_at: at }: Reckoned, load: LastLoad, system: UnitSystem, timeZone: string): string {
  if (at === null) return `the load of ${formatDate(Date.parse(load.taken_at), timeZone)}, in rating weather. Not its temperature now.`
  return `in the weather noted ${formatDateTime(Date.parse(at), timeZone)} (air ${formatTemperature(ambientC, system)}, wind ${formatWind(windMS, system)}). Not a rating.`
}
