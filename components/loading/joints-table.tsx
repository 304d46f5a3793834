'use client'
import { useState } from 'react'
import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { alongText, phaseText } from '@/components/splice/position'
import { Button } from '@/components/ui/button'
import { DataTable, num } from '@/components/ui/data-table'
import { usePhaseLetters, useUnitSystem } from '@/components/ui/preferences'
import sheet from '@/components/ui/sheet.module.css'
import { formatRatio } from '@/lib/units/format'
import { isBlind, isRead, type PassingJoint } from './reckon'
import { allowsText, besideText, degreesText, sectionText } from './words'
import css from './loading.module.css'

const FIRST_ROWS = 12
const MORE_ROWS = 100

interface Props {
  caption: string
  rows: readonly PassingJoint[]
  /** Several sections: each row says on which. */
  several: boolean
  firstRows?: number
}

/** Splices with their temperatures and what each allows; as many rows as a person reads, and more on asking. Roles are spelled out, since a phone lays rows out as blocks. */
export function JointsTable({ caption, rows, several, firstRows = FIRST_ROWS }: Props) {
  const [system] = useUnitSystem()
  const letters = usePhaseLetters()
  const [shown, setShown] = useState(firstRows)
  return (
    <>
      <DataTable caption={caption} className={css.table} role="table">
        <thead role="rowgroup">
          <tr role="row">
            <th scope="col" role="columnheader">Splice</th>
            <th scope="col" role="columnheader" className={num}>Allows</th>
            <th scope="col" role="columnheader" className={num}>Temperature</th>
            <th scope="col" role="columnheader" className={num}>At upper ratio</th>
            <th scope="col" role="columnheader" className={num}>Ratio believed</th>
          </tr>
        </thead>
        <tbody role="rowgroup">
          {rows.slice(0, shown).map(({ joint, section }) => (
            <tr key={joint.of.id} role="row">
              <th scope="row" role="rowheader">
                <ClassMark class={joint.of.class} size={13} labelled /> <Link href={`/splices/${joint.of.id}`}>{joint.of.splice}</Link>
                <span className={sheet.under}>
                  {several ? `${sectionText(section.section.of)}, ` : ''}
                  {alongText(joint.of, system)}, {phaseText(joint.of, letters)}
                </span>
              </th>
              <td role="cell" data-label="Allows" className={num}>
                <strong>{allowsText(joint, section)}</strong>
                {joint.of.limit && <span className={sheet.under}>{besideText(joint, section)}</span>}
              </td>
              <td role="cell" data-label="Temperature" className={num}>
                {isRead(joint) ? degreesText(joint.believedC, system) : <span className="muted">not known</span>}
              </td>
              <td role="cell" data-label="At upper ratio" className={num}>
                {isBlind(joint) ? <span className="muted">not known</span> : degreesText(joint.upperC, system)}
              </td>
              <td role="cell" data-label="Ratio believed" className={num}>
                {isBlind(joint) ? <span className="muted">not known</span> : `${isRead(joint) ? `${formatRatio(joint.of.k)}, ` : ''}upper ${formatRatio(joint.of.upper_k)}`}
                {joint.of.basis === 'finding' && <span className={sheet.under}>held finding</span>}
              </td>
            </tr>
          ))}
        </tbody>
      </DataTable>
      {rows.length > shown && (
        <Button size="small" className={`${css.more} no-print`} onClick={() => setShown(shown + MORE_ROWS)}>
          Show {Math.min(MORE_ROWS, rows.length - shown)} more of {rows.length}
        </Button>
      )}
      {rows.length > shown && <p className="only-print">The first {shown} of {rows.length}; the screen has the rest.</p>}
    </>
  )
}
