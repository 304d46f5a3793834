'use client'
import { useEffect, useState } from 'react'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { Button } from './button'
import { Dialog, DialogClose } from './dialog'
import { Field } from './field'
import { Icon } from './icons'
import { footMark, pageMarks } from './page-marks'
import { useTimeZone } from './preferences'
import { setPrintRecipient, usePrintRecipient } from './print-recipient'
import css from './print.module.css'

const REISSUE_AFTER_DAYS = { critical: 1, urgent: 7, otherwise: 30 }
const DIALOG_GONE_MS = 250

/** Asks whom the paper is for, and prints. */
export function PrintButton() {
  const [open, setOpen] = useState(false)
  const recipient = usePrintRecipient()
  const print = () => {
    setOpen(false)
    // The dialog must be gone from the page before the browser draws it for paper.
    setTimeout(() => window.print(), DIALOG_GONE_MS)
  }
  return (
    <Dialog
      open={open}
      onOpenChange={setOpen}
      title="Print"
      trigger={
        <Button size="small">
          <Icon name="print" />
          Print
        </Button>
      }
      actions={
        <>
          <DialogClose>
            <Button>Cancel</Button>
          </DialogClose>
          <Button variant="primary" onClick={print}>
            Print
          </Button>
        </>
      }
    >
      <Field
        label="Recipient"
        optional
        value={recipient}
        maxLength={120}
        hint="Stands on the paper beside the information-handling mark. Empty: a line to fill in by hand."
        onChange={(e) => setPrintRecipient(e.target.value)}
        onKeyDown={(e) => {
          if (e.key === 'Enter') print()
        }}
      />
    </Dialog>
  )
}

/** Stands on paper only, before everything else and at the head of every further page: how it is to be handled, and whom it is for. */
export function PrintHead({ mark }: { mark: string }) {
  const recipient = usePrintRecipient().trim()
  const handling = mark.trim() || 'No information-handling mark is set'
  return (
    <>
      <style>{pageMarks(handling, recipient)}</style>
      <p className={css.head}>
        <strong>{handling}</strong>
        <span>
          Recipient: {recipient === '' ? <i aria-label="to be filled in by hand" /> : <b>{recipient}</b>}
        </span>
      </p>
    </>
  )
}

export interface PrintFootProps {
  utility: string
  /** When the page was asked for: what stands on paper where the browser tells nothing of printing. */
  askedAtMs: number
  /** When something on it falls due: an older paper would miss it. */
  dueAtMs?: number
  /** How many are on it that nobody lets stand: the worst of them says how long the paper holds. */
  pressing?: Pressing
  /** The day whose weather and load it is of: it holds that day alone. */
  ofDayMs?: number
}

/** Splices on a paper by what they are shown as; a held one counts with its class. */
export interface Pressing { critical: number; urgent: number }

const holdsDays = ({ critical, urgent }: Pressing): number =>
  critical > 0 ? REISSUE_AFTER_DAYS.critical : urgent > 0 ? REISSUE_AFTER_DAYS.urgent : REISSUE_AFTER_DAYS.otherwise

/** When a paper lapses: by the worst class on it, or sooner where something on it falls due. */
export function lapsesAt(printedAtMs: number, pressing: Pressing, dueAtMs = Infinity): number {
  const latestMs = printedAtMs + holdsDays(pressing) * 86_400_000
  return dueAtMs > printedAtMs && dueAtMs < latestMs ? dueAtMs : latestMs
}

/** Stands on paper only: when it was printed, when a newer one is needed and whose it is. */
export function PrintFoot({ utility, askedAtMs, dueAtMs, pressing = { critical: 0, urgent: 0 }, ofDayMs }: PrintFootProps) {
  const timeZone = useTimeZone()
  const [printedAtMs, setPrintedAt] = useState(askedAtMs)
  useEffect(() => {
    const stamp = () => setPrintedAt(Date.now())
    window.addEventListener('beforeprint', stamp)
    return () => window.removeEventListener('beforeprint', stamp)
  }, [])
  const lapsesAtMs = lapsesAt(printedAtMs, pressing, dueAtMs)
  const printed = `Printed at ${formatDateTime(printedAtMs, timeZone)}.`
  const lapses = ofDayMs !== undefined ? `Void after ${formatDate(ofDayMs, timeZone)}` : `Void after ${(lapsesAtMs < printedAtMs + REISSUE_AFTER_DAYS.otherwise * 86_400_000 ? formatDateTime : formatDate)(lapsesAtMs, timeZone)}`
  return (
    <>
      <style>{footMark(`${printed} ${lapses}`)}</style>
      <p className={css.foot}>
        {printed} {lapses}, or after any new {ofDayMs === undefined ? 'reading' : 'forecast, load or reading'}. {utility && `${utility}.`}
      </p>
    </>
  )
}
