'use client'
import Link from 'next/link'
import { useMemo } from 'react'
import { useRouter } from 'next/navigation'
import { FieldFrame } from '@/components/ui/field'
import field from '@/components/ui/field.module.css'
import { Chooser } from '@/components/ui/chooser'
import { useTimeZone } from '@/components/ui/preferences'
import type { CircuitSummary } from '@/lib/contract/contract'
import { ZoneClock } from '@/lib/intake/cells/zone'
import { changesHref, type Since } from './visit'
import css from './changes.module.css'

const HOUR_MS = 3_600_000
const SPANS = [{ label: '24 hours', ms: 24 * HOUR_MS }, { label: '7 days', ms: 7 * 24 * HOUR_MS }, { label: '30 days', ms: 30 * 24 * HOUR_MS }]
/** A page that is asked for again a while later still shows the span that was chosen. */
const NEAR_MS = 10 * 60_000
const EARLIEST = '2000-01-01'

interface Props {
  /** ISO 8601. */
  since: string
  lastVisit: Since
  circuits: CircuitSummary[]
  circuitIds: number[] | undefined
  /** When the page was asked for: what spans of time count back from. */
  askedAtMs: number
}

/** Since when, and of which circuits. Every choice is an address. */
export function Period({ since, lastVisit, circuits, circuitIds, askedAtMs }: Props) {
  const router = useRouter()
  const timeZone = useTimeZone()
  const clock = useMemo(() => new ZoneClock(timeZone), [timeZone])
  const sinceMs = Date.parse(since)
  const isVisit = lastVisit.of === 'visit' && Date.parse(lastVisit.at) === sinceMs
  const span = isVisit ? undefined : SPANS.find(({ ms }) => Math.abs(askedAtMs - ms - sinceMs) < NEAR_MS)
  const day = dayText(sinceMs, timeZone)
  return (
    <div className={`${css.period} no-print`}>
      <nav className={css.spans} aria-label="Since when">
        {lastVisit.of === 'visit' && <Choice href={changesHref(lastVisit.at, circuitIds)} current={isVisit}>Last visit</Choice>}
        {SPANS.map(({ label, ms }) => (
          <Choice key={label} href={changesHref(new Date(askedAtMs - ms).toISOString(), circuitIds)} current={span?.label === label}>
            {label}
          </Choice>
        ))}
      </nav>
      <FieldFrame label="Since the beginning of">
        {(a11y) => (
          <input
            key={day}
            className={field.control}
            type="date"
            min={EARLIEST}
            max={dayText(askedAtMs, timeZone)}
            defaultValue={day}
            {...a11y}
            onChange={({ target }) => {
              const wallMs = Date.parse(`${target.value}T00:00:00Z`)
              if (Number.isFinite(wallMs) && target.validity.valid) router.push(changesHref(new Date(clock.toUtc(wallMs).atMs).toISOString(), circuitIds))
            }}
          />
        )}
      </FieldFrame>
      <div className={css.circuit}>
        <Chooser
          name="Circuit"
          chosen={circuitIds}
          options={circuits.map((c) => ({ value: c.id, label: c.line_name ? `${c.name}, ${c.line_name}` : c.name }))}
          onChoose={(ids) => router.replace(changesHref(since, ids), { scroll: false })}
          short={(id) => circuits.find((c) => c.id === id)?.name ?? String(id)}
        />
      </div>
    </div>
  )
}

function Choice({ href, current, children }: { href: string; current: boolean; children: string }) {
  return (
    <Link href={href} scroll={false} prefetch={false} aria-current={current ? 'true' : undefined}>
      {children}
    </Link>
  )
}

/** '2026-11-30' in a zone: Swedes write days so. */
const dayText = (atMs: number, timeZone: string): string => new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short' }).format(atMs)
