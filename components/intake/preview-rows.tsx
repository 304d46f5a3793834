'use client'
import { useState, type KeyboardEvent } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { cx } from '@/components/ui/class-names'
import { Icon, type IconName } from '@/components/ui/icons'
import { EmptyState } from '@/components/ui/states'
import { Segmented } from '@/components/ui/tabs'
import { useLocalText } from '@/components/ui/use-local-text'
import type { ImportPreview, MappingJson, PreviewRow } from '@/lib/contract/intake'
import { labelOf } from './field-choices'
import { faultText } from './issue-words'
import { BECOMES_WORDS, many, type Kind } from './words'
import css from './preview.module.css'

type State = PreviewRow['becomes']['state']
const ORDER: State[] = ['placed', 'review', 'rejected', 'read']
const MARKS: Record<State, IconName> = { placed: 'check', review: 'target', rejected: 'close', read: 'check' }

/** The first rows of the file, what each would become, and where it goes wrong: cell, sentence, remedy. */
export function PreviewRows({
  preview,
  unread,
  mapping,
  selected,
  onSelect,
}: {
  preview: ImportPreview
  /** The mapping cannot be used yet: rows are shown as they stand in the file. */
  unread: boolean
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
  if (preview.rows.length === 0)
    return <EmptyState title="The file has a header and no rows">Check that it was exported whole, then choose it again.</EmptyState>
  return (
    <>
      <div className={css.rowsHead}>
        <h2>
          {unread
            ? `The first ${many(preview.rows.length, 'row')} as ${preview.rows.length === 1 ? 'it stands' : 'they stand'} in the file`
            : `What the first ${many(preview.rows.length, 'row')} become${preview.rows.length === 1 ? 's' : ''}`}
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
          <caption className="visually-hidden">
            First rows of the file{unread ? '' : ' and what each would become'}. The arrow keys go from row to row.
          </caption>
          <thead>
            <tr>
              <th scope="col" className={css.rowNo}>
                Row
              </th>
              {!unread && (
                <>
                  <th scope="col" className={css.fate}>
                    Becomes
                  </th>
                  <th scope="col" className={css.becomes}>
                    Where, or why not
                  </th>
                </>
              )}
              {columns.map((c) => (
                <th key={c} scope="col" className={fieldOf.get(c) ? undefined : css.unused}>
                  {labelOf(preview.kind, fieldOf.get(c) ?? null) ?? 'Not used'}
                  <span>{c}</span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody onKeyDown={stepRows}>
            {rows.map((r) => (
              <Row
                key={r.row}
                kind={preview.kind}
                row={r}
                unread={unread}
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

/** The arrow keys go to the row above and below, which opens as it is reached. */
function stepRows(e: KeyboardEvent<HTMLElement>): void {
  if (e.key !== 'ArrowDown' && e.key !== 'ArrowUp') return
  const row = e.target instanceof Element ? e.target.closest('tr') : null
  const next = e.key === 'ArrowDown' ? row?.nextElementSibling : row?.previousElementSibling
  const button = next?.querySelector('button')
  if (!button) return
  e.preventDefault()
  button.focus()
  button.click()
}

function Row({
  kind,
  row,
  unread,
  columns,
  fieldOf,
  selected,
  onSelect,
}: {
  kind: Kind
  row: PreviewRow
  unread: boolean
  columns: string[]
  fieldOf: Map<string, string | null>
  selected: boolean
  onSelect(): void
}) {
  const local = useLocalText()
  const faulty = new Map(row.issues.flatMap((i) => (i.field === null ? [] : [[i.field, i.severity] as const])))
  const { state, text, own_class: own, own_provisional: provisional } = row.becomes
  return (
    <tr aria-current={selected || undefined} className={cx(selected && css.selected)} onClick={onSelect}>
      <th scope="row" className={css.rowNo}>
        <button type="button" onClick={onSelect} aria-expanded={selected} aria-label={`Row ${row.row}`}>
          {row.row}
        </button>
      </th>
      {!unread && (
        <>
          <td className={cx(css.fate, css[state])}>
            <span>
              <Icon name={MARKS[state]} />
              {BECOMES_WORDS[state]}
            </span>
          </td>
          <td className={css.becomes}>
            {own && (
              <p className={css.own}>
                <ClassMark class={own} size={14} /> {own} by its own numbers{provisional ? ', provisionally' : ''}: call the control room now
              </p>
            )}
            {row.issues.length === 0 || state !== 'rejected' ? <p>{text}</p> : null}
            {row.issues.map((issue, n) => (
              <p key={n} className={issue.severity === 'error' ? css.issueError : css.issueWarning}>
                {issue.field !== null && <b>{labelOf(kind, issue.field)}: </b>}
                {faultText(issue.message)} <span>{local(issue.remedy)}</span>
              </p>
            ))}
          </td>
        </>
      )}
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
