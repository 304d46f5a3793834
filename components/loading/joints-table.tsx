'use client'
import { useState } from 'react'
import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { alongText, phaseText } from '@/components/splice/position'
import { Button } from '@/components/ui/button'
import { DataTable, num } from '@/components/ui/data-table'
import { usePhaseLetters, useUnitSystem } from '@/components/ui/preferences'
import sheet from '@/components/ui/sheet.module.css'
import { currentMeasure, formatRatio } from '@/lib/units/format'
import { Quantity } from '@/components/ui/states'
import { type PassingJoint } from './reckon'
import { degreesText, sectionText } from './words'
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

/** Splices with their temperatures and what each allows; as many rows as a person reads, and more on asking. */
export function JointsTable({ caption, rows, several, firstRows = FIRST_ROWS }: Props) {
  const [system] = useUnitSystem()
  const letters = usePhaseLetters()
  const [shown, setShown] = useState(firstRows)
  return (
    <>
      <DataTable caption={caption} className={css.table}>
        <thead>
          <tr>
            <th scope="col">Splice</th>
            <th scope="col" className={num}>
              Temperature
            </th>
            <th scope="col" className={num}>
              At upper ratio
            </th>
            <th scope="col" className={num}>
              Ratio
            </th>
            <th scope="col" className={num}>
              Allows
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, shown).map(({ joint, section }) => (
            <tr key={joint.of.id}>
              <th scope="row">
                <ClassMark class={joint.of.class} size={13} labelled /> <Link href={`/splices/${joint.of.id}`}>{joint.of.splice}</Link>
                <span className={sheet.under}>
                  {several ? `${sectionText(section.section.of)}, ` : ''}
                  {alongText(joint.of, system)}, {phaseText(joint.of, letters)}
                </span>
              </th>
              <td className={num}>{joint.of.basis === 'unread' ? <span className="muted">not read</span> : degreesText(joint.believedC, system)}</td>
              <td className={num}>
                <strong>{degreesText(joint.upperC, system)}</strong>
              </td>
              <td className={num}>
                {joint.of.basis === 'unread' ? '' : `${formatRatio(joint.of.k)}, `}under {formatRatio(joint.of.upper_k)}
                {joint.of.basis === 'finding' && <span className={sheet.under}>held finding</span>}
              </td>
              <td className={num}>
                <Quantity {...currentMeasure(joint.allowedA)} />
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
