'use client'
import { RawRow } from '@/components/splice/raw-row'
import { Icon } from '@/components/ui/icons'
import { usePhaseLetters, useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import type { ReviewItem } from '@/lib/contract/contract'
import { formatRatio } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { factsOf, ratiosOf, type Fact } from './facts'
import css from './panel.module.css'

/** What the reading says of itself, and why a person is asked. */
export function ReadingFacts({ item }: { item: ReviewItem }) {
  const { reading } = item
  const zone = useTimeZone()
  const [system] = useUnitSystem()
  const letters = usePhaseLetters()
  const facts = factsOf(reading, system, letters)
  const ratios = ratiosOf(reading)
  return (
    <>
      <header className={css.head}>
        <h1>{reading.reading_id}</h1>
        <p>
          {reading.survey} · {reading.kind} ·{' '}
          {reading.taken_at === null ? 'time not known' : formatDateTime(Date.parse(reading.taken_at), zone)} ·{' '}
          <RawRow reading={reading} />
        </p>
      </header>
      {item.urgent && (
        <p className={css.urgent}>
          <Icon name="phone" />
          <span>
            <b>Urgent or critical by its own numbers.</b> Operations sees it with its candidate circuits. If the control room has not
            been called, call now.
          </span>
        </p>
      )}
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
      <Facts label="Measured" facts={facts.measured} />
      <Facts label="Where it says it was" facts={facts.place} />
      <Facts label="Noted" facts={facts.rest} />
      {reading.placement.reasons.length > 0 && (
        <section className={css.section}>
          <h2>{reading.placement.state === 'rejected' ? 'Why it was rejected' : 'Why it is here'}</h2>
          <ul className={css.reasons}>
            {reading.placement.reasons.map((r) => (
              <li key={r.code + r.text}>{r.text}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  )
}

function Facts({ label, facts }: { label: string; facts: Fact[] }) {
  if (facts.length === 0) return null
  return (
    <section className={css.section}>
      <h2>{label}</h2>
      <dl className={css.facts}>
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
