'use client'
import { useEffect, useId, useRef, useState, type KeyboardEvent } from 'react'
import { cx } from '@/components/ui/class-names'
import { Icon } from '@/components/ui/icons'
import { Popover } from '@/components/ui/popover'
import { useLocalText } from '@/components/ui/use-local-text'
import type { MappingJson } from '@/lib/contract/intake'
import { fieldChoices, labelOf, type FieldChoice } from './field-choices'
import type { Kind } from './words'
import css from './field-picker.module.css'

interface Props {
  kind: Kind
  column: string
  field: string | null
  mapping: MappingJson
  invalid: boolean
  onField(field: string | null): void
}

/** What a column of the file is used as: the field in plain words; opens to a list that is narrowed by typing. */
export function FieldPicker(props: Props) {
  const { kind, column, field, invalid } = props
  const [open, setOpen] = useState(false)
  const label = labelOf(kind, field)
  return (
    <Popover
      label={`What ${column} is used as`}
      className={css.popover}
      open={open}
      onOpenChange={setOpen}
      trigger={
        <button
          type="button"
          className={cx(css.trigger, label === null && css.quiet, invalid && css.invalid)}
          aria-haspopup="listbox"
          aria-label={`${column} is used as ${label ?? 'nothing'}`}
          data-field={field ?? ''}
        >
          <span>{label ?? 'Not used'}</span>
          <Icon name="down" />
        </button>
      }
    >
      <Choices {...props} onDone={() => setOpen(false)} />
    </Popover>
  )
}

function Choices({ kind, column, field, mapping, onField, onDone }: Props & { onDone(): void }) {
  const listId = useId()
  const local = useLocalText()
  const [query, setQuery] = useState('')
  const groups = fieldChoices(kind, mapping, column, query)
  const flat: (FieldChoice | null)[] = [...(query === '' ? [null] : []), ...groups.flatMap((g) => g.choices)]
  const [wanted, setWanted] = useState(() => Math.max(0, flat.findIndex((c) => (c?.name ?? null) === field)))
  const active = Math.min(wanted, flat.length - 1)
  const list = useRef<HTMLDivElement>(null)
  useEffect(() => {
    // The list has its height once the popover has been placed.
    const frame = requestAnimationFrame(() => list.current?.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: 'nearest' }))
    return () => cancelAnimationFrame(frame)
  }, [active, query])

  const choose = (choice: FieldChoice | null) => {
    onField(choice?.name ?? null)
    onDone()
  }
  const onKeyDown = (e: KeyboardEvent) => {
    const chosen = flat[active]
    if (e.key === 'ArrowDown') setWanted(Math.min(active + 1, flat.length - 1))
    else if (e.key === 'ArrowUp') setWanted(Math.max(active - 1, 0))
    else if (e.key === 'Enter' && chosen !== undefined) choose(chosen)
    else return
    e.preventDefault()
  }
  const option = (choice: FieldChoice | null) => {
    const at = flat.indexOf(choice)
    return (
      <div
        key={choice?.name ?? '-'}
        id={`${listId}-${at}`}
        role="option"
        aria-selected={at === active}
        className={cx(css.option, (choice?.name ?? null) === field && css.current)}
        onPointerMove={() => setWanted(at)}
        onClick={() => choose(choice)}
      >
        <span className={css.label}>
          {choice?.label ?? 'Not used'}
          {choice?.unit && <small> {choice.unit}</small>}
        </span>
        <span className={css.name}>{choice === null ? '' : choice.takenBy === null ? choice.name : `is ${choice.takenBy}`}</span>
      </div>
    )
  }
  return (
    <>
      <div className={css.search}>
        <Icon name="search" />
        <input
          type="text"
          role="combobox"
          aria-label={`Find what ${column} is used as`}
          aria-expanded="true"
          aria-controls={listId}
          aria-autocomplete="list"
          aria-activedescendant={active >= 0 ? `${listId}-${active}` : undefined}
          placeholder="Type to find"
          autoComplete="off"
          spellCheck={false}
          value={query}
          onChange={(e) => {
            setQuery(e.target.value)
            setWanted(0)
          }}
          onKeyDown={onKeyDown}
        />
      </div>
      <div ref={list} id={listId} role="listbox" aria-label="Fields" className={css.list}>
        {query === '' && option(null)}
        {groups.map((g) => (
          <div key={g.group} role="group" aria-label={g.group}>
            <div className={css.group} aria-hidden="true">
              {g.group}
            </div>
            {g.choices.map(option)}
          </div>
        ))}
      </div>
      <p className={css.foot} role="status">
        {flat.length === 0 ? `Nothing is called '${query}'. Delete it to see every field.` : local(flat[active]?.description ?? 'The column stays in the stored row and counts for nothing.')}
      </p>
    </>
  )
}
