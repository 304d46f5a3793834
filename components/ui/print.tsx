'use client'
import { useEffect, useState } from 'react'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { Button } from './button'
import { Icon } from './icons'
import { useTimeZone } from './preferences'
import css from './print.module.css'

const REISSUE_AFTER_DAYS = 30

export function PrintButton() {
  return (
    <Button size="small" onClick={() => window.print()}>
      <Icon name="print" />
      Print
    </Button>
  )
}

/** Stands on paper only: when it was printed, when a newer one is needed, whose it is and how it is to be handled. */
export function PrintFoot({ mark, utility }: { mark: string; utility: string }) {
  const timeZone = useTimeZone()
  const [printedAtMs, setPrintedAt] = useState<number | null>(null)
  useEffect(() => {
    const stamp = () => setPrintedAt(Date.now())
    window.addEventListener('beforeprint', stamp)
    const media = window.matchMedia('print')
    media.addEventListener('change', stamp)
    return () => {
      window.removeEventListener('beforeprint', stamp)
      media.removeEventListener('change', stamp)
    }
  }, [])
  return (
    <p className={css.foot}>
      {printedAtMs !== null && (
        <>
          Printed at {formatDateTime(printedAtMs, timeZone)}. Reissue if older than{' '}
          {formatDate(printedAtMs + REISSUE_AFTER_DAYS * 86_400_000, timeZone)}, or after any new reading.{' '}
        </>
      )}
      {utility && `${utility}. `}
      {mark}
    </p>
  )
}
