'use client'
import { useState } from 'react'
import { DataTable, num, SortHead } from '@/components/ui/data-table'
import { NativeSelect } from '@/components/ui/native-select'
import { useUnitSystem } from '@/components/ui/preferences'
import { Quantity } from '@/components/ui/states'
import { formatNumber, lengthMeasure } from '@/lib/units/format'
import { ClassBar, countsSentence } from './class-bar'
import { HealthTableRow } from './health-table-row'
import { backlogOf, currentOf, shareOf, sortHealth, totalsOf, WORST_CIRCUITS, type HealthRow, type HealthSort } from './health-rows'
import css from './health-table.module.css'
import { Late } from './late'
import { Conclusive } from './conclusive'
import { Limits } from './limits'
import { Share } from './share'
import { Unsettled } from './unsettled'

/** First press: names rise, figures fall, because the large and the bad are looked for first; of coverage and surveys the least. */
const RISES_FIRST: HealthSort[] = ['circuit', 'lookedAt', 'conclusive', 'survey']

const LABELS: Record<HealthSort, string> = {
  circuit: 'Circuit', voltage: 'Voltage', length: 'Length', splices: 'Splices', classes: 'By class', worst: 'Worst splice', backlog: 'To repair',
  late: 'Past response time', lookedAt: 'Looked at', conclusive: 'Conclusively', survey: 'Last survey',
}

/** Every circuit on one page, the worst first until somebody sorts otherwise. */
export function HealthTable({
  rows,
  unsettled,
  nowMs,
}: {
  rows: HealthRow[]
  /** Of the network, each reading once. */
  unsettled: { urgent: number; critical: number }
  nowMs: number
}) {
  const [order, setOrder] = useState(WORST_CIRCUITS)
  const [system] = useUnitSystem()
  const totals = totalsOf(rows)
  const sortBy = (by: HealthSort) => setOrder({ by, ascending: order.by === by ? !order.ascending : RISES_FIRST.includes(by) })
  const head = (by: HealthSort, numeric = false) => (
    <SortHead
      label={LABELS[by]}
      numeric={numeric}
      direction={order.by === by ? (order.ascending ? 'ascending' : 'descending') : undefined}
      onSort={() => sortBy(by)}
    />
  )
  return (
    <div className={css.frame}>
      <NativeSelect label="Sort by" className={css.sort} value={order.by} onChange={(e) => sortBy(e.target.value as HealthSort)}>
        {(Object.keys(LABELS) as HealthSort[]).map((by) => (
          <option key={by} value={by}>
            Sort: {LABELS[by].toLowerCase()}
          </option>
        ))}
      </NativeSelect>
      <DataTable caption="Circuits by condition" className={css.table} inset>
        <thead>
          <tr>
            {head('circuit')}
            {head('voltage', true)}
            {head('length', true)}
            {head('splices', true)}
            {head('classes')}
            {head('worst')}
            {head('backlog', true)}
            {head('late')}
            {head('lookedAt')}
            {head('conclusive')}
            {head('survey', true)}
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
              <ClassBar counts={totals.counts} soundPast={totals.soundPast} />
              <small>{countsSentence(totals.counts, totals.soundPast)}</small>
              <Unsettled of={{ ...unsettled, reading_id: null }} />
              <Limits of={totals.limits} />
            </td>
            <td data-wide />
            <td className={num} data-label="to repair">
              {formatNumber(backlogOf(totals.counts), 0)}
            </td>
            <td data-label="past response time">
              <Late overdue={totals.overdue} late={totals.late} />
            </td>
            <td className={css.share} data-label="looked at">
              <Share share={shareOf(totals.lookedAt, totals.spanPhases)} quiet />
            </td>
            <td className={css.share} data-label="conclusively">
              <Conclusive current={currentOf(totals)} spanPhases={totals.spanPhases} age={totals.age} />
            </td>
            <td data-wide />
          </tr>
        </tfoot>
      </DataTable>
    </div>
  )
}
