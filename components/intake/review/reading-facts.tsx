'use client'
import { ClassMark } from '@/components/map/class-mark'
import { RawRow } from '@/components/splice/raw-row'
import { cx } from '@/components/ui/class-names'
import { Icon } from '@/components/ui/icons'
import { usePhaseLetters, useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import type { ReviewItem } from '@/lib/contract/contract'
import type { NoticeState } from '@/lib/contract/urgent'
import { reviewCauseText } from '@/lib/geo/review-cause'
import { formatRatio } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { capital, readingName } from '../reading-name'
import { ToldButton } from '../told-dialog'
import { TOLD, toldText } from '../urgent-words'
import { factsOf, ratiosOf, type Fact } from './facts'
import css from './panel.module.css'

/**
 * What is known before anybody decides: which reading, what was measured, where it says it was, and why a person is asked. What the
 * crew noted is among it where the decision comes only after it; beside a map it follows the candidates, which must be in sight.
 */
export function Evidence({ item, noteFirst }: { item: ReviewItem; noteFirst: boolean }) {
  const [system] = useUnitSystem()
  const letters = usePhaseLetters()
  const facts = factsOf(item.reading, system, letters)
  return (
    <>
      <ReadingHead item={item} />
      <Facts label="Measured" facts={facts.measured} short />
      <Facts label="Where it says it was" facts={facts.place} short />
      {noteFirst && <Noted item={item} />}
      <Why item={item} />
    </>
  )
}

/** Which reading this is, and its figures where they cannot wait. */
function ReadingHead({ item }: { item: ReviewItem }) {
  const { reading } = item
  const zone = useTimeZone()
  const ratios = ratiosOf(reading)
  return (
    <>
      <header className={css.head}>
        <h2 tabIndex={-1}>{capital(readingName(reading.reading_id, reading.row, `import ${reading.import_id}`))}</h2>
        <p>
          {reading.survey} · {reading.kind} ·{' '}
          {reading.taken_at === null ? 'time not known' : formatDateTime(Date.parse(reading.taken_at), zone)} ·{' '}
          <RawRow reading={reading} />
        </p>
      </header>
      {item.notice && <UrgentCall reading={reading} notice={item.notice} />}
      {ratios.length > 0 && (
        <p className={css.ratios}>
          {ratios.map((r) => (
            <span key={r.side}>
              <b>{formatRatio(r.ratio)}</b> side {r.side}
            </span>
          ))}
          <small>times the conductor, as read</small>
        </p>
      )}
    </>
  )
}

/** What cannot wait for the decision on the place, and that the control room was told of it. */
function UrgentCall({ reading, notice }: { reading: ReviewItem['reading']; notice: NoticeState }) {
  const zone = useTimeZone()
  const told = notice.acknowledged_at !== null
  return (
    <div className={cx(css.urgent, told && css.told)} role="group" aria-label="Call to the control room">
      <Icon name={told ? 'check' : 'phone'} />
      <p>
        <b>
          <ClassMark class={notice.class} /> {capital(notice.class)} {notice.basis === 'assessment' ? 'with what else is known.' : 'by its own numbers.'}
        </b>{' '}
        {told
          ? `${TOLD} ${toldText(notice, zone)}.`
          : 'Operations sees it with its candidate circuits. If the control room has not been called, call now.'}
      </p>
      {!told && (
        <ToldButton of={{ readingId: reading.id }} class={notice.class} about={`${notice.class}, ${readingName(reading.reading_id, reading.row)}`} />
      )}
    </div>
  )
}

export function Noted({ item }: { item: ReviewItem }) {
  const [system] = useUnitSystem()
  const letters = usePhaseLetters()
  return <Facts label="Noted" facts={factsOf(item.reading, system, letters).rest} />
}

function Why({ item }: { item: ReviewItem }) {
  const { placement } = item.reading
  if (placement.reasons.length === 0) return null
  return (
    <section className={css.section}>
      <h3>{placement.state === 'rejected' ? 'Why it was set aside' : 'Why it is here'}</h3>
      {item.cause !== null && <p className={css.cause}>{reviewCauseText(item.cause)}</p>}
      <ul className={css.reasons}>
        {placement.reasons.map((r) => (
          <li key={r.code + r.text}>{r.text}</li>
        ))}
      </ul>
    </section>
  )
}

function Facts({ label, facts, short = false }: { label: string; facts: Fact[]; short?: boolean }) {
  if (facts.length === 0) return null
  return (
    <section className={css.section}>
      <h3>{label}</h3>
      <dl className={cx(css.facts, short && css.short)}>
        {facts.map((f) => (
          <div key={f.label}>
            <dt>{f.label}</dt>
            <dd>{f.value}</dd>
          </div>
        ))}
      </dl>
    </section>
  )
}
