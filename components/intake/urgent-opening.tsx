'use client'
import Link from 'next/link'
import { useState } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { Button } from '@/components/ui/button'
import { cx } from '@/components/ui/class-names'
import { Icon } from '@/components/ui/icons'
import { useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import type { UrgentReading } from '@/lib/contract/urgent'
import { strangeCircuit } from '@/lib/intake/report/no-circuit'
import { perhapsAlso, placedText } from '@/lib/intake/report/placed-doubt'
import { formatRatio, formatSure } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { capital, readingName } from './reading-name'
import { ToldButton } from './told-dialog'
import {
  classWords, noCircuitText, notReadText, openingWords, placeText, provisionalText, ratioText, rowNumbersText, spokenText, subjectText, tableText, TOLD, toldText, waitingThenWorst, withdrawnText,
} from './urgent-words'
import css from './urgent.module.css'

const FIRST = 6

/** What a report opens with: the control room is called before anything else is read. */
export function UrgentOpening({
  readings,
  met = [],
  file,
  dryRun = false,
  again = false,
}: {
  readings: UrgentReading[]
  /** Notices among these that waited before this file came: their rows are those of another file. */
  met?: number[]
  file: string
  dryRun?: boolean
  /** The same file was imported before: nothing of this is new. */
  again?: boolean
}) {
  const [all, setAll] = useState(false)
  if (readings.length === 0) return null
  const waiting = readings.filter((r) => r.acknowledged_at === null)
  const told = waiting.length === 0 && !dryRun
  const worst = readings.toSorted(waitingThenWorst)
  const shown = all ? worst : worst.slice(0, FIRST)
  return (
    <section className={cx(css.opening, told && css.calm)} aria-labelledby="urgent-title" role={told ? undefined : 'alert'}>
      <header>
        <Icon name={told ? 'check' : 'phone'} />
        <div>
          <h2 id="urgent-title">{dryRun ? `${classWords(readings)}: call the control room now` : heading(told, again)}</h2>
          <p>{openingWords(readings, { dryRun, again, met })}</p>
        </div>
      </header>
      <ul>
        {shown.map((r) => (
          <UrgentRow key={r.notice_id} reading={r} file={file} isMet={met.includes(r.notice_id)} dryRun={dryRun} />
        ))}
      </ul>
      {readings.length > FIRST && (
        <footer>
          <Button size="small" onClick={() => setAll(!all)}>
            {all ? `Show the worst ${FIRST}` : `Show all ${readings.length}`}
          </Button>
        </footer>
      )}
    </section>
  )
}

const heading = (told: boolean, again: boolean): string => {
  if (told) return again ? 'Already announced: the control room has been told' : 'The control room has been told'
  return again ? 'Already announced, and the control room not yet told' : 'Call the control room now'
}

function UrgentRow({ reading, file, isMet, dryRun }: { reading: UrgentReading; file: string; isMet: boolean; dryRun: boolean }) {
  const zone = useTimeZone()
  const [system] = useUnitSystem()
  const numbers = reading.reading_id === null ? rowNumbersText(reading, system) : ''
  const fault = reading.reading_id === null ? notReadText(reading) : ''
  return (
    <li className={css.row}>
      <span className={css.class}>
        <ClassMark class={reading.class} /> {reading.class}
      </span>
      <span className={css.ratio}>
        {reading.ratio === null ? (
          <small>seen, no ratio</small>
        ) : (
          <>
            {formatRatio(reading.ratio)}
            <small> × {reading.by_table ? 'the table’s conductor, not measured' : 'conductor'}</small>
          </>
        )}
      </span>
      <div className={css.where}>
        <p>
          <Circuits reading={reading} />
        </p>
        <p className={css.detail}>
          <Place reading={reading} dryRun={dryRun} />
          {' · '}
          {reading.reading_id === null ? subjectText(reading, file) : readingName(reading.reading_key ?? '', isMet ? undefined : reading.row, file)}{isMet && ` of survey ${reading.survey}`}
          {reading.taken_at === null ? ', time not known' : `, ${formatDateTime(Date.parse(reading.taken_at), zone)}`}
          {reading.withdrawn && <strong>, {withdrawnText(reading.withdrawn)}</strong>}
        </p>
        {fault !== '' && (
          <p className={css.detail}>
            {numbers !== '' && `${numbers}. `}
            <strong>{fault}</strong>
          </p>
        )}
        {reading.provisional && <p className={css.detail}>{provisionalText(reading)}</p>}
        {reading.by_table && <p className={css.detail}>{tableText(reading)}</p>}
      </div>
      {!dryRun && <Told reading={reading} />}
    </li>
  )
}

/** Circuit and span, as far as they are known; a dry run has nothing to open. */
function Place({ reading, dryRun }: { reading: UrgentReading; dryRun: boolean }) {
  const { splice } = reading
  const position = reading.position_text === null ? null : placedText(reading.position_text, reading)
  const where = placeText(reading)
  if (reading.reading_id === null) return <>{where === '' ? 'Place not known' : capital(where)}</>
  if (reading.placement_state === 'review' && !reading.withdrawn) {
    return (
      <>
        {where === '' ? 'Place not settled' : `${capital(where)}. Place not settled`}
        {!dryRun && (
          <>
            . <Link href={`/intake/review?reading=${reading.reading_id}`}>Settle it</Link>
          </>
        )}
      </>
    )
  }
  if (reading.splice_id === null) return <>{position ?? 'Not placed'}</>
  if (!dryRun) {
    return (
      <>
        <Link href={`/splices/${reading.splice_id}`}>{splice ?? 'Splice'}</Link>
        {position === null ? '' : `, ${position}`}
      </>
    )
  }
  // A splice that a survey found has no name, and whether its number is older than this dry run is not told.
  const named = splice !== null && !splice.startsWith('found ') ? splice : 'Splice found by survey'
  return <>{[named, position].filter(Boolean).join(', ')}</>
}

function Circuits({ reading }: { reading: UrgentReading }) {
  if (reading.circuits.length === 0) return <>{noCircuitText(reading)}</>
  const several = reading.circuits.length > 1
  const strange = reading.placement_state === 'review' ? strangeCircuit(reading) : null
  return (
    <>
      {strange !== null && `Names circuit ${strange}; perhaps `}
      {several ? (strange === null ? 'One of: ' : 'one of: ') : ''}
      {reading.circuits.map((c, n) => (
        <span key={c.circuit_id}>
          {n > 0 && '; '}
          <Link href={`/circuits/${c.circuit_id}`}>{c.circuit}</Link>
          {c.line_name ? ` ${c.line_name}` : ''}
          {several && c.probability !== null && <small> ({formatSure(c.probability)} likely)</small>}
        </span>
      ))}
      {!several && perhapsAlso(reading)}
    </>
  )
}

function Told({ reading }: { reading: UrgentReading }) {
  const zone = useTimeZone()
  if (reading.acknowledged_at !== null) {
    return (
      <span className={css.told}>
        {TOLD} {toldText(reading, zone)}
      </span>
    )
  }
  return (
    <ToldButton of={{ noticeId: reading.notice_id }} class={reading.class} about={`${reading.class}, ${ratioText(reading)}, ${spokenText(reading)}`} />
  )
}
