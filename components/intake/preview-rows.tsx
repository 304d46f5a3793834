'use client'
import { useState } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { cx } from '@/components/ui/class-names'
import { Segmented } from '@/components/ui/tabs'
import { useLocalText } from '@/components/ui/use-local-text'
import type { ImportPreview, MappingJson, PreviewRow } from '@/lib/contract/intake'
import { BECOMES_WORDS, many } from './words'
import css from './preview.module.css'

type State = PreviewRow['becomes']['state']
const ORDER: State[] = ['placed', 'review', 'rejected', 'read']

/** The first rows of the file, what each would become, and where it goes wrong: cell, sentence, remedy. */
export function PreviewRows({
  preview,
  mapping,
  selected,
  onSelect,
}: {
  preview: ImportPreview
  mapping: MappingJson
  selected: number | null
  onSelect(row: number): void
}) {
  const [shown, setShown] = useState<State | 'all'>('all')
  const states = ORDER.filter((s) => preview.rows.some((r) => r.becomes.state === s))
  const filter = shown !== 'all' && states.includes(shown) ? shown : 'all'
  const rows = preview.rows.filter((r) => filter === 'all' || r.becomes.state === filter)
  const fieldOf = new Map(mapping.columns.map((c) => [c.column, c.field]))
  const columns = [...preview.columns.map((c) => c.column)].sort((a, b) => Number(!fieldOf.get(a)) - Number(!fieldOf.get(b)))
  return (
    <>
      <div className={css.rowsHead}>
        <h2>
          What the first {many(preview.rows.length, 'row')} become{preview.rows.length === 1 ? 's' : ''}
        </h2>
        {states.length > 1 && (
          <Segmented<State | 'all'>
            label="Rows shown"
            size="small"
            value={filter}
            onValueChange={setShown}
            options={[
              { value: 'all', label: 'All' },
              ...states.map((s) => ({
                value: s,
                label: `${BECOMES_WORDS[s]} ${preview.rows.filter((r) => r.becomes.state === s).length}`,
              })),
            ]}
          />
        )}
      </div>
      <div className={css.scroll} tabIndex={0} role="region" aria-label="First rows of the file">
        <table className={css.rows}>
          <caption className="visually-hidden">First rows of the file and what each would become</caption>
          <thead>
            <tr>
              <th scope="col" className={css.rowNo}>
                Row
              </th>
              <th scope="col" className={css.becomes}>
                Becomes
              </th>
              {columns.map((c) => (
                <th key={c} scope="col" className={fieldOf.get(c) ? undefined : css.unused}>
                  {c}
                  <span>{fieldOf.get(c) === c ? '' : (fieldOf.get(c) ?? 'not used')}</span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((r) => (
              <Row
                key={r.row}
                row={r}
                columns={columns}
                fieldOf={fieldOf}
                selected={selected === r.row}
                onSelect={() => onSelect(r.row)}
              />
            ))}
          </tbody>
        </table>
      </div>
    </>
  )
}

function Row({
  row,
  columns,
  fieldOf,
  selected,
  onSelect,
}: {
  row: PreviewRow
  columns: string[]
  fieldOf: Map<string, string | null>
  selected: boolean
  onSelect(): void
}) {
  const local = useLocalText()
  const faulty = new Map(row.issues.flatMap((i) => (i.field === null ? [] : [[i.field, i.severity] as const])))
  const located = typeof row.becomes.lon === 'number'
  return (
    <tr
      aria-current={selected || undefined}
      className={cx(selected && css.selected, row.becomes.state === 'rejected' && css.rejected)}
      onClick={located ? onSelect : undefined}
    >
      <th scope="row" className={css.rowNo}>
        {located ? (
          <button type="button" onClick={onSelect} aria-label={`Show row ${row.row} on the map`}>
            {row.row}
          </button>
        ) : (
          row.row
        )}
      </th>
      <td className={css.becomes}>
        {row.becomes.own_class && (
          <p className={css.own}>
            <ClassMark class={row.becomes.own_class} size={14} /> {row.becomes.own_class} by its own numbers: call the control room now
          </p>
        )}
        <div className={css.fate}>
          <strong className={css[row.becomes.state]}>{BECOMES_WORDS[row.becomes.state]}</strong>
          <div>
            {row.issues.length === 0 || row.becomes.state !== 'rejected' ? <p>{row.becomes.text}</p> : null}
            {row.issues.map((issue, n) => (
              <p key={n} className={issue.severity === 'error' ? css.issueError : css.issueWarning}>
                {issue.message} <span>{local(issue.remedy)}</span>
              </p>
            ))}
          </div>
        </div>
      </td>
      {columns.map((c) => {
        const field = fieldOf.get(c) ?? null
        const fault = faulty.get(c) ?? (field === null ? undefined : faulty.get(field))
        return (
          <td key={c} className={cx(field === null && css.unused, fault !== undefined && css.fault)}>
            {row.cells[c] ?? ''}
          </td>
        )
      })}
    </tr>
  )
}
