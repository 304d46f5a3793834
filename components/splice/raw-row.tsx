'use client'
import type { ReadingJson } from '@/lib/contract/contract'
import { Popover } from '@/components/ui/popover'
import { formatSure } from '@/lib/units/format'
import css from './readings-table.module.css'

const STATE = { placed: 'Placed', review: 'For review', rejected: 'Set aside' } as const

/** The row as it stood in the file, and why the reading was placed where it is. */
export function RawRow({ reading }: { reading: ReadingJson }) {
  const { placement } = reading
  return (
    <Popover
      label={`Row ${reading.row} as it stood in the file`}
      align="end"
      trigger={
        <button type="button" className={css.link}>
          row {reading.row}
        </button>
      }>
      <div className={css.raw}>
        <strong>Reading {reading.reading_id}</strong>
        <pre>{reading.raw_row}</pre>
        <div>
          {STATE[placement.state]}
          {placement.method === 'person' && placement.decided_by ? ` by ${placement.decided_by}` : ''}
          {placement.probability !== null ? `, ${formatSure(placement.probability)} sure of its place` : ''}
        </div>
        {placement.reasons.length > 0 && (
          <ul>
            {placement.reasons.map((r) => (
              <li key={r.code + r.text}>{r.text}</li>
            ))}
          </ul>
        )}
      </div>
    </Popover>
  )
}
