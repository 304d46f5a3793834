'use client'
import { useState, type CSSProperties } from 'react'
import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { dayText } from '@/components/splice/age'
import { useUnitSystem } from '@/components/ui/preferences'
import { DataTable, num, SortHead } from '@/components/ui/data-table'
import { Quantity } from '@/components/ui/states'
import { formatNumber, formatRatio, lengthMeasure, percentMeasure, voltageMeasure } from '@/lib/units/format'
import { ClassBar, countsSentence } from './class-bar'
import { coverageShare, sortHealth, totalsOf, type HealthRow, type HealthSort } from './health-rows'
import css from './health-table.module.css'

/** First press: names rise, figures fall, because the large and the bad are looked for first. */
const RISES_FIRST: HealthSort[] = ['circuit', 'coverage', 'survey']

/** Every circuit on one page, the worst first until somebody sorts otherwise. */
export function HealthTable({ rows }: { rows: HealthRow[] }) {
  const [sort, setSort] = useState<{ by: HealthSort; ascending: boolean }>({ by: 'worst', ascending: false })
  const [system] = useUnitSystem()
  const totals = totalsOf(rows)
  const head = (by: HealthSort, label: string, numeric = false) => (
    <SortHead
      label={label}
      numeric={numeric}
      direction={sort.by === by ? (sort.ascending ? 'ascending' : 'descending') : undefined}
      onSort={() => setSort({ by, ascending: sort.by === by ? !sort.ascending : RISES_FIRST.includes(by) })}
    />
  )
  return (
    <div className={css.frame}>
      <DataTable caption="Circuits by condition" className={css.table} inset>
        <thead>
          <tr>
            {head('circuit', 'Circuit')}
            {head('voltage', 'Voltage', true)}
            {head('length', 'Length', true)}
            {head('splices', 'Splices', true)}
            <th scope="col">By class</th>
            {head('worst', 'Worst splice')}
            {head('coverage', 'Looked at', true)}
            {head('survey', 'Last survey', true)}
          </tr>
        </thead>
        <tbody>
          {sortHealth(rows, sort.by, sort.ascending).map((row) => (
            <Row key={row.id} row={row} />
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">
              {totals.circuits} {totals.circuits === 1 ? 'circuit' : 'circuits'}
            </th>
            <td data-wide />
            <td className={num}>
              <Quantity {...lengthMeasure(totals.lengthM, system)} />
            </td>
            <td className={num} data-wide>
              {formatNumber(totals.splices, 0)}
            </td>
            <td className={css.bar}>
              <ClassBar counts={totals.counts} />
              <small>{countsSentence(totals.counts)}</small>
            </td>
            <td data-wide />
            <td className={num} data-wide>
              <Share {...totals} />
            </td>
            <td data-wide />
          </tr>
        </tfoot>
      </DataTable>
    </div>
  )
}

function Row({ row }: { row: HealthRow }) {
  const [system] = useUnitSystem()
  return (
    <tr>
      <th scope="row">
        <Link className={css.name} href={`/circuits/${row.id}`}>
          {row.circuit}
        </Link>
        <span className={css.sub}>{row.names}</span>
      </th>
      <td className={num}>
        {row.voltageKv === null ? <span className="muted">not known</span> : <Quantity {...voltageMeasure(row.voltageKv)} />}
      </td>
      <td className={num} data-wide>
        <Quantity {...lengthMeasure(row.lengthM, system)} />
      </td>
      <td className={num} data-wide>
        {formatNumber(row.spliceCount, 0)}
      </td>
      <td className={css.bar}>
        <ClassBar counts={row.counts} />
        <small>{countsSentence(row.counts)}</small>
      </td>
      <td data-wide>
        {row.worst ? (
          <span className={css.worst}>
            <ClassMark class={row.worst.class} size={16} />
            <span>
              <Link href={`/splices/${row.worst.id}`}>{row.worst.splice}</Link>
              {row.worst.ratio === null ? '' : ` ${formatRatio(row.worst.ratio)}`}
              <span className={css.sub}>
                {row.worst.class}, {row.worst.position_text}
              </span>
            </span>
          </span>
        ) : (
          <span className="muted">none assessed</span>
        )}
      </td>
      <td className={num} data-wide>
        <Share {...row} />
      </td>
      <td className={num} data-wide>
        {row.lastSurveyedOn ? dayText(row.lastSurveyedOn) : <span className="muted">never</span>}
      </td>
    </tr>
  )
}

function Share(of: { coveredSpanPhases: number; spanPhases: number }) {
  const share = coverageShare(of)
  if (share === null) return <span className="muted">–</span>
  return (
    <span className={css.share}>
      <Quantity {...percentMeasure(share)} />
      <i style={{ '--w': `${share * 100}%` } as CSSProperties} aria-hidden="true" />
    </span>
  )
}
