import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { ageText } from '@/components/splice/age'
import { classNow, pastText, readAtMs } from '@/components/splice/past-re-measure'
import { positionText, type PhaseLetters } from '@/components/splice/position'
import { DataTable, num } from '@/components/ui/data-table'
import type { SpliceSummary } from '@/lib/contract/contract'
import { formatRatio, type UnitSystem } from '@/lib/units/format'
import { formatMonth } from '@/lib/units/time'
import css from './circuit-splices.module.css'

/** The circuit's splices, worst first; past the first page the list in Operations takes over. */
export function CircuitSplices({
  splices,
  total,
  circuitId,
  words,
}: {
  splices: SpliceSummary[]
  total: number
  circuitId: number
  words: { system: UnitSystem; timeZone: string; letters: PhaseLetters; nowMs: number }
}) {
  if (splices.length === 0)
    return <p className="muted">No splice is known on this circuit yet. Import the splice list, or a survey that finds them.</p>
  return (
    <>
      <DataTable caption="Splices of this circuit, worst first" className={css.table}>
        <thead>
          <tr>
            <th scope="col">Splice</th>
            <th scope="col">Class</th>
            <th scope="col" className={num}>
              Ratio measured
            </th>
            <th scope="col">Confidence</th>
            <th scope="col">Position</th>
            <th scope="col" className={num}>
              Last reading
            </th>
          </tr>
        </thead>
        <tbody>
          {splices.map((s) => {
            const atMs = readAtMs(s)
            const past = pastText(s, words.timeZone, words.nowMs)
            return (
              <tr key={s.id}>
                <th scope="row">
                  <Link href={`/splices/${s.id}`} prefetch={false}>
                    {s.splice}
                  </Link>
                </th>
                <td>
                  <span className={css.class}>
                    <ClassMark class={s.class} size={14} />
                    {classNow(s, words.nowMs)}
                    {s.held ? ', held' : ''}
                  </span>
                </td>
                <td className={num}>{s.ratio === null ? '–' : formatRatio(s.ratio)}</td>
                <td>{s.held ? 'held' : s.confidence}</td>
                <td>{positionText(s, words.system, words.letters)}</td>
                <td className={num}>
                  {atMs === null ? (
                    <span className="muted">none</span>
                  ) : (
                    <>
                      {formatMonth(atMs, words.timeZone)} <span className="muted">{ageText(atMs, words.nowMs)}</span>
                      {past && <span className={css.past}>{past}</span>}
                    </>
                  )}
                </td>
              </tr>
            )
          })}
        </tbody>
      </DataTable>
      {total > splices.length && (
        <p>
          The worst {splices.length} of {total}.{' '}
          <Link href={`/operations?circuit=${circuitId}&view=list`}>List them all in Operations</Link>.
        </p>
      )}
    </>
  )
}
