'use client'
import Link from 'next/link'
import { DataTable } from '@/components/ui/data-table'
import { Icon } from '@/components/ui/icons'
import sheet from '@/components/ui/sheet.module.css'
import type { SunOff } from '@/lib/condition/loading/daylight'
import type { Policy } from '@/lib/condition/policy'
import type { UnitSystem } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import type { FlightInputs } from './flight-address'
import type { FlightRow } from './flight-model'
import { amperesText, obstaclesText, remedyText, marginalText, oneSidedText, pixelsText, showsText, standingText } from './flight-words'
import { sectionText } from './words'
import css from './flight.module.css'

interface Props {
  rows: readonly FlightRow[]
  inputs: FlightInputs
  sunOf(row: FlightRow): SunOff
  policy: Policy
  system: UnitSystem
  timeZone: string
}

/** Every section, with its roles spelled out, since a phone lays rows out as blocks: would a bad splice show, from how near, and what it would take where not. */
export function FlightTable({ rows, inputs, sunOf, policy, system, timeZone }: Props) {
  return (
    <DataTable caption="Sections before a flight, those worth it first" className={css.table} role="table">
      <thead role="rowgroup">
        <tr role="row">
          <th scope="col" role="columnheader">Section</th>
          <th scope="col" role="columnheader">Load</th>
          <th scope="col" role="columnheader">Today</th>
          <th scope="col" role="columnheader">What would do</th>
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map((row) => {
          const { of, standing } = row
          return (
            <tr key={of.id} role="row" data-standing={standing} data-near={standing === 'fly' && inputs.dist === null ? '' : undefined}>
              <th scope="row" role="rowheader">
                <Link href={`/circuits/${of.circuit_id}`}>{sectionText(of)}</Link>
                <span className={sheet.under}>{[of.line_name, of.conductor].filter(Boolean).join(', ')}</span>
              </th>
              <td role="cell">{loadText(row, inputs, timeZone)}</td>
              <td role="cell">
                <strong className={css.standing}>
                  <Icon name={standing === 'fly' && inputs.dist !== null ? 'check' : standing === 'do-not-fly' ? 'close' : 'info'} />
                  {standingText(row, inputs, system)}
                </strong>
                <span className={sheet.under}>
                  {row.verdict && standing !== 'load-unknown' ? showsText(row, system) : ''}
                  {standing === 'do-not-fly' ? `: ${obstaclesText(row, policy, system)}` : standing === 'not-reckoned' ? obstaclesText(row, policy, system) : ''}
                  {standing === 'marginal' && `. ${marginalText(row)}`}
                </span>
                <span className={sheet.under}>{oneSidedText(row, system)}</span>
                <span className={sheet.under}>{pixelsText(row, inputs, policy, system)}</span>
              </td>
              <td role="cell">{remedyText(row, inputs, sunOf, policy, system, timeZone)}</td>
            </tr>
          )
        })}
      </tbody>
    </DataTable>
  )
}

function loadText({ of, currentA }: FlightRow, inputs: FlightInputs, timeZone: string) {
  if (currentA === null) return <span className="muted">not known</span>
  return (
    <>
      {amperesText(currentA, of.rating_a)}
      {inputs.load === 'last' && of.last_load && (
        <span className={sheet.under}>
          {formatDateTime(Date.parse(of.last_load.taken_at), timeZone)}
          {of.last_load.quality === 'estimated' ? ', estimated' : ''}
        </span>
      )}
    </>
  )
}
