'use client'
import { useState } from 'react'
import { cx } from '@/components/ui/class-names'
import { DataTable, num, SortHead } from '@/components/ui/data-table'
import { useUnitSystem } from '@/components/ui/preferences'
import { Quantity } from '@/components/ui/states'
import { formatNumber, lengthMeasure } from '@/lib/units/format'
import { ClassBar, countsSentence } from './class-bar'
import { HealthTableRow } from './health-table-row'
import { backlogOf, shareOf, sortHealth, totalsOf, WORST_CIRCUITS, type HealthRow, type HealthSort } from './health-rows'
import css from './health-table.module.css'
import { Late } from './late'
import { Share } from './share'

/** First press: names rise, figures fall, because the large and the bad are looked for first; of coverage and surveys the least. */
const RISES_FIRST: HealthSort[] = ['circuit', 'lookedAt', 'conclusive', 'survey']

/** Every circuit on one page, the worst first until somebody sorts otherwise. */
export function HealthTable({ rows, nowMs }: { rows: HealthRow[]; nowMs: number }) {
  const [order, setOrder] = useState(WORST_CIRCUITS)
  const [system] = useUnitSystem()
  const totals = totalsOf(rows)
  const head = (by: HealthSort, label: string, numeric = false) => (
    <SortHead
      label={label}
      numeric={numeric}
      direction={order.by === by ? (order.ascending ? 'ascending' : 'descending') : undefined}
      onSort={() => setOrder({ by, ascending: order.by === by ? !order.ascending : RISES_FIRST.includes(by) })}
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
            {head('classes', 'By class')}
            {head('worst', 'Worst splice')}
            {head('backlog', 'To repair', true)}
            {head('late', 'Past response time', true)}
            {head('lookedAt', 'Looked at', true)}
            {head('conclusive', 'Conclusively', true)}
            {head('survey', 'Last survey', true)}
          </tr>
        </thead>
        <tbody>
          {sortHealth(rows, order).map((row) => (
            <HealthTableRow key={row.id} row={row} nowMs={nowMs} />
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">
              {formatNumber(totals.circuits, 0)} {totals.circuits === 1 ? 'circuit' : 'circuits'}
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
            <td className={num} data-label="to repair">
              {formatNumber(backlogOf(totals.counts), 0)}
            </td>
            <td className={num} data-label="past response time">
              <Late {...totals.late} />
            </td>
            <td className={cx(num, css.share)} data-label="looked at">
              <Share share={shareOf(totals.lookedAt, totals.spanPhases)} />
            </td>
            <td className={cx(num, css.share)} data-label="conclusively">
              <Share share={shareOf(totals.conclusive, totals.spanPhases)} />
            </td>
            <td data-wide />
          </tr>
        </tfoot>
      </DataTable>
    </div>
  )
}
