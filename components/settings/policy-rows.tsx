'use client'
import { Button, IconButton } from '@/components/ui/button'
import { Field } from '@/components/ui/field'
import { NumberField } from './number-field'
import css from './policy.module.css'

interface Column {
  key: string
  label: string
  unit: string
  text?: true
  optional?: true
}
type Row = Record<string, unknown>

/** Settings that are lists: what one row holds, and what a new one begins with. */
export const ROW_KINDS: Record<string, { columns: readonly Column[]; fresh: Row; add: string }> = {
  edgesByMaxOperatingC: {
    columns: [
      { key: 'maxOperatingC', label: 'Up to', unit: '°C' },
      { key: 'watch', label: 'Watch over', unit: '' },
      { key: 'degraded', label: 'Degraded over', unit: '' },
      { key: 'urgent', label: 'Urgent over', unit: '' },
      { key: 'critical', label: 'Critical over', unit: '' },
    ],
    fresh: { maxOperatingC: 100, watch: 1, degraded: 1.11, urgent: 1.22, critical: 1.81 },
    add: 'Add a temperature',
  },
  'instrument.byName': {
    columns: [
      { key: 'instrument', label: 'Instrument', unit: '', text: true },
      { key: 'limitRel', label: 'Error, of reading', unit: 'share', optional: true },
      { key: 'limitOffsetUohm', label: 'Error, fixed', unit: 'µΩ', optional: true },
      { key: 'minimumCurrentA', label: 'Least current', unit: 'A', optional: true },
    ],
    fresh: { instrument: '' },
    add: 'Add an instrument',
  },
}

/** A list of a policy, row by row. Faults are those of the whole policy, by path. */
export function PolicyRows({
  path,
  rows,
  faults,
  onRows,
}: {
  path: string
  rows: readonly Row[]
  faults: ReadonlyMap<string, string>
  onRows(rows: Row[]): void
}) {
  const kind = ROW_KINDS[path]
  if (!kind) return null
  const put = (at: number, column: Column, value: string | number | null) =>
    onRows(
      rows.map((row, n) => {
        if (n !== at) return row
        if (column.optional && value === null) return Object.fromEntries(Object.entries(row).filter(([key]) => key !== column.key))
        return { ...row, [column.key]: value }
      }),
    )
  return (
    <div className={css.rowsEditor}>
      {rows.map((row, n) => (
        <div key={n} className={css.rowEditor}>
          {kind.columns.map((c) => {
            const value = row[c.key]
            const fault = faults.get(`${path}.${n}.${c.key}`)
            return c.text ? (
              <Field
                key={c.key}
                label={c.label}
                value={typeof value === 'string' ? value : ''}
                error={fault}
                onChange={(e) => put(n, c, e.target.value)}
              />
            ) : (
              <NumberField
                key={c.key}
                label={c.label}
                optional={c.optional}
                unit={c.unit}
                value={value}
                fault={fault}
                onValue={(v) => put(n, c, v)}
              />
            )
          })}
          <IconButton icon="close" label={`Remove row ${n + 1}`} onClick={() => onRows(rows.filter((_, at) => at !== n))} />
          {faults.get(`${path}.${n}`) && <p className={css.groupFault}>{faults.get(`${path}.${n}`)}</p>}
        </div>
      ))}
      <div>
        <Button size="small" onClick={() => onRows([...rows, kind.fresh])}>
          {kind.add}
        </Button>
      </div>
    </div>
  )
}
