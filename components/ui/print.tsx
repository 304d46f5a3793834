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

export interface PrintFootProps {
  /** How the utility wants its papers handled. */
  mark: string
  utility: string
  /** When the page was asked for: what stands on paper where the browser tells nothing of printing. */
  askedAtMs: number
  /** When something on it falls due: an older paper would miss it. */
  dueAtMs?: number
}

/** Stands on paper only: when it was printed, when a newer one is needed, whose it is and how it is to be handled. */
export function PrintFoot({ mark, utility, askedAtMs, dueAtMs = Infinity }: PrintFootProps) {
  const timeZone = useTimeZone()
  const [printedAtMs, setPrintedAt] = useState(askedAtMs)
  useEffect(() => {
    const stamp = () => setPrintedAt(Date.now())
    window.addEventListener('beforeprint', stamp)
    return () => window.removeEventListener('beforeprint', stamp)
  }, [])
  const monthMs = printedAtMs + REISSUE_AFTER_DAYS * 86_400_000
  const lapsesAtMs = dueAtMs > printedAtMs && dueAtMs < monthMs ? dueAtMs : monthMs
  return (
    <p className={css.foot}>
      Printed at {formatDateTime(printedAtMs, timeZone)}. Reissue if older than {(lapsesAtMs < monthMs ? formatDateTime : formatDate)(lapsesAtMs, timeZone)}, or after any new
      reading. {utility && `${utility}. `}
      {mark}
    </p>
  )
}
