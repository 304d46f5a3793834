'use client'
import Link from 'next/link'
import { useTimeZone } from '@/components/ui/preferences'
import { formatTime } from '@/lib/units/time'
import { useLookAgain } from './use-calls'
import css from './calls-line.module.css'

/** Above the list: how many come back in this peak-load period, or when, and the way to the log. */
export function CallsLine({ version }: { version: number | undefined }) {
  const timeZone = useTimeZone()
  const again = useLookAgain(version).data
  const waiting = again ? again.acute - again.looked : 0
  const text = !again || again.acute === 0 || (!again.current && !again.next) ? null
    : again.current ? `${waiting === 0 ? 'All looked at' : `${waiting} to look at again`} until ${formatTime(Date.parse(again.current.to), timeZone)}`
      : `${again.acute} to look at again from ${formatTime(Date.parse(again.next?.from ?? ''), timeZone)}`
  return (
    <p className={css.line}>
      {text === null ? <span /> : <Link href="/operations/calls#look-again" className={again?.current && waiting > 0 ? css.due : undefined}>{text}</Link>}
      <Link href="/operations/calls">Calls</Link>
    </p>
  )
}
