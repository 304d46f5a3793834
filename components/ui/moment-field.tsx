'use client'
import { useMemo } from 'react'
import { ZoneClock } from '@/lib/intake/cells/zone'
import { FieldFrame } from './field'
import field from './field.module.css'

interface Props {
  label: string
  hint: string
  value: Date | null
  onValue(value: Date | null): void
  /** IANA name: what is written is the wall clock there. */
  timeZone: string
  /** It must not be left empty. */
  required?: boolean
  error?: string
}

/** A day and hour in the reader's zone by the browser's own control; empty means none. */
export function MomentField({ label, hint, value, onValue, timeZone, required = false, error }: Props) {
  const clock = useMemo(() => new ZoneClock(timeZone), [timeZone])
  return (
    <FieldFrame label={label} hint={hint} optional={!required} error={error}>
      {(a11y) => (
        <input
          className={field.control}
          type="datetime-local"
          step={60}
          required={required}
          value={value === null ? '' : wallText(value, timeZone)}
          {...a11y}
          onChange={(e) => {
            const wallMs = Date.parse(`${e.target.value}Z`)
            onValue(Number.isFinite(wallMs) ? new Date(clock.toUtc(wallMs).atMs) : null)
          }}
        />
      )}
    </FieldFrame>
  )
}

/** '2026-11-30T14:05': Swedes write it nearly so. */
const wallText = (at: Date, timeZone: string): string =>
  new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short', timeStyle: 'short' }).format(at).replace(' ', 'T')
