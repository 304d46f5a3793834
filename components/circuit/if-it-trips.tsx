import type { ReactNode } from 'react'
import { ASK, calledLines, isolationText, notedText, supplyText, timesText } from '@/components/splice/trip-words'
import css from '@/components/ui/sheet.module.css'
import { unbroken } from '@/components/ui/unbroken'
import type { CircuitJson } from '@/lib/contract/api'

interface Props {
  circuit: Pick<CircuitJson, 'from' | 'to' | 'if_it_trips'>
  timeZone: string
  /** Where it is noted. */
  note?: ReactNode
}

/** Who loses supply, what isolates it and who is called, or whom to ask. */
export function IfItTripsOfCircuit({ circuit: { from, to, if_it_trips: trip }, timeZone, note }: Props) {
  const called = calledLines(trip)
  const noted = notedText(trip, timeZone)
  return (
    <section className={css.part}>
      <h2>If it trips</h2>
      <dl className={css.facts}>
        <dt>Loses supply</dt>
        <dd>{unbroken(supplyText({ ...trip, radial: null, mw: null }).join(' '))}</dd>
        <dt>Isolated by</dt>
        <dd>{unbroken(isolationText({ ...trip, from, to }).join(' '))}</dd>
        <dt>Called</dt>
        <dd>{called.length === 0 ? ASK.called : called.map((line) => <div key={line}>{unbroken(line)}</div>)}</dd>
        <dt>Times</dt>
        <dd>{timesText(trip)}</dd>
      </dl>
      {noted !== '' && <p className={css.small}>{noted}</p>}
      {note && <p className={`${css.row} no-print`}>{note}</p>}
    </section>
  )
}
