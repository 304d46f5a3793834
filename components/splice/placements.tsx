import { cx } from '@/components/ui/class-names'
import { Newest } from '@/components/ui/newest'
import css from '@/components/ui/sheet.module.css'
import type { SpliceDetail } from '@/lib/contract/contract'
import { formatNumber, formatSure } from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'

/** So many doubts stand on the screen at once. */
const AT_ONCE = 2

const METHODS = { declared: 'as declared', track: 'by its track', alone: 'by position alone', person: 'by a person' } as const

/** How its readings came to this splice, how sure that is, and where else one may have been taken. */
export function Placements({ readings, other_places: others, timeZone }: Pick<SpliceDetail, 'readings' | 'other_places'> & { timeZone: string }) {
  if (readings.length === 0) return null
  // Where its track alone decided, what is to be kept in mind names the other circuit.
  const byTrack = readings.some(({ placement }) => placement.reasons.some(({ code }) => code === 'circuit-by-track'))
  return (
    <section className={cx(css.part, css.whole, css.dense, css.beside2, others.length === 0 && css.oneLine, others.length === 0 && 'no-print')}>
      <h2>Placement</h2>
      <div className={css.said}>
        <p>{placedText(readings)}{others.length === 0 && !byTrack && ' No other place was likely.'}</p>
        {others.length > 0 && (
          <Newest more={others.length > AT_ONCE ? `${others.length - AT_ONCE} more` : ''}>
            <ul className={`${css.sentences} ${css.brief}`}>
              {others.map((one, n) => <li key={one.reading_id} data-earlier={n >= AT_ONCE || undefined}>{otherText(one, readings, timeZone)}</li>)}
            </ul>
          </Newest>
        )}
      </div>
    </section>
  )
}

/** '4 readings: 3 as declared, 1 by its track; the least sure 97%.' */
export function placedText(readings: SpliceDetail['readings']): string {
  const counts = new Map<keyof typeof METHODS, number>()
  for (const { placement: { method } } of readings) counts.set(method, (counts.get(method) ?? 0) + 1)
  const sure = readings.flatMap(({ placement: { probability } }) => (probability === null ? [] : [probability]))
  const [only] = counts.size === 1 ? [...counts.keys()] : []
  const how = only ? METHODS[only] : [...counts].sort((a, b) => b[1] - a[1]).map(([method, n]) => `${formatNumber(n, 0)} ${METHODS[method]}`).join(', ')
  const least = sure.length === 0 ? '' : readings.length === 1 ? `; ${formatSure(Math.min(...sure))} sure` : `; the least sure ${formatSure(Math.min(...sure))}`
  return `${formatNumber(readings.length, 0)} ${readings.length === 1 ? 'reading' : 'readings'}${counts.size > 1 ? ':' : ''} ${how}${least}.`
}

/** '14 Jul 2020, reading R-12: 4% circuit 2320, STR 091-092 + 690 ft, phase A.' */
export function otherText({ reading_id: id, places }: SpliceDetail['other_places'][number], readings: SpliceDetail['readings'], timeZone: string): string {
  const reading = readings.find((one) => one.id === id)
  const when = reading?.taken_at ? `${formatDate(Date.parse(reading.taken_at), timeZone)}, ` : ''
  return `${when}reading ${reading?.reading_id ?? id}: or ${places.map((one) => `circuit ${one.circuit}, ${one.position_text}, ${formatSure(one.probability)}`).join('; ')}.`
}
