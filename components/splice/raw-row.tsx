'use client'
import { useQuery } from '@tanstack/react-query'
import { reading as readingSchema, type ReadingJson } from '@/lib/contract/contract'
import { fetchJson } from '@/components/ui/fetch-json'
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
        <Cells readingId={reading.id} />
        <pre>{reading.raw_row}</pre>
        <div>
          {STATE[placement.state]}
          {placement.method === 'person' && placement.decided_by ? ` by ${placement.decided_by}` : ''}
          {placement.probability !== null && placement.state === 'placed' ? `, ${formatSure(placement.probability)} sure of its place` : ''}
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

/** The filled cells under the file's own column names, asked for once the row is opened. What was written stands below it whatever comes of that. */
function Cells({ readingId }: { readingId: number }) {
  const { data } = useQuery({ queryKey: ['reading', readingId], queryFn: ({ signal }) => fetchJson(`/api/v1/readings/${readingId}`, readingSchema, { signal }) })
  const filled = (data?.raw_cells ?? []).filter(({ cell }) => cell.trim() !== '')
  if (filled.length === 0) return null
  return (
    <dl className={css.cells}>
      {filled.map(({ column, cell }, i) => (
        <div key={i}>
          <dt>{column === '' ? 'no column' : column}</dt>
          <dd>{cell}</dd>
        </div>
      ))}
    </dl>
  )
}
