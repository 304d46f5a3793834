'use client'
import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { ageText, dayText } from '@/components/splice/age'
import { num } from '@/components/ui/data-table'
import { useUnitSystem } from '@/components/ui/preferences'
import { Quantity } from '@/components/ui/states'
import { formatEdge, formatNumber, formatRatio, lengthMeasure, voltageMeasure } from '@/lib/units/format'
import { ClassBar, countsSentence } from './class-bar'
import { backlogOf, currentOf, isUnknown, shareOf, type HealthRow } from './health-rows'
import css from './health-table.module.css'
import { Late } from './late'
import { Conclusive } from './conclusive'
import { Limits } from './limits'
import { Share } from './share'
import { Unsettled } from './unsettled'

/**
 * A circuit among the others, whose sheets are fetched when they are asked for: all of them at once would stand in the way of the one.
 * On a phone its figures stand below each other under their names.
 */
export function HealthTableRow({ row, nowMs }: { row: HealthRow; nowMs: number }) {
  const [system] = useUnitSystem()
  const backlog = backlogOf(row.counts)
  return (
    <tr>
      <th scope="row">
        <Link className={css.name} href={`/circuits/${row.id}`} prefetch={false}>
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
        <ClassBar counts={row.counts} soundPast={row.soundPast} />
        <small>{countsSentence(row.counts, row.soundPast)}</small>
        <Unsettled of={row.unsettled} />
        <Limits of={row.limits} />
      </td>
      <td data-wide>
        {isUnknown(row) ? <NotKnown /> : <Worst worst={row.worst} />}
      </td>
      <td className={num} data-label="to repair">
        {isUnknown(row) ? <NotKnown /> : backlog === 0 ? <span className="muted">none</span> : formatNumber(backlog, 0)}
      </td>
      <td data-label="past response time">
        {isUnknown(row) ? <NotKnown /> : <Late overdue={row.overdue} late={row.late} />}
      </td>
      <td className={css.share} data-label="looked at">
        <Share share={shareOf(row.lookedAt, row.spanPhases)} quiet />
      </td>
      <td className={css.share} data-label="conclusively">
        <Conclusive current={currentOf(row)} spanPhases={row.spanPhases} age={row.age} />
      </td>
      <td className={num} data-label="last survey">
        {row.lastSurveyedOn ? (
          <span>
            {dayText(row.lastSurveyedOn)} <span className={css.sub}>{ageText(Date.parse(row.lastSurveyedOn), nowMs)}</span>
          </span>
        ) : (
          <span className="muted">never</span>
        )}
      </td>
    </tr>
  )
}

const NotKnown = () => <b>not known</b>

function Worst({ worst }: { worst: HealthRow['worst'] }) {
  if (!worst) return <span className="muted">none assessed</span>
  return (
    <span className={css.worst}>
      <ClassMark class={worst.class} size={16} />
      <span>
        <Link href={`/splices/${worst.id}`} prefetch={false}>
          {worst.splice}
        </Link>
        {worst.ratio === null ? '' : ` ${formatRatio(worst.ratio)}`}
        <span className={css.sub}>
          {worst.class}{worst.own_edge !== null && worst.ratio !== null && ` from ${formatEdge(worst.own_edge)} on this section`}, {worst.position_text}
        </span>
      </span>
    </span>
  )
}
