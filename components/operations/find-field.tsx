'use client'
import { useDeferredValue, useEffect, useId, useRef, useState, type KeyboardEvent } from 'react'
import { useQueryClient } from '@tanstack/react-query'
import { asSentences } from '@/components/ui/fetch-json'
import { Icon } from '@/components/ui/icons'
import { useLocalText } from '@/components/ui/use-local-text'
import { PHONE, useMedia } from '@/components/ui/use-media'
import { namesakes, searchFor, useSearch, type FoundItem } from './search-query'
import { useGoTo } from './use-go-to'
import css from './find-field.module.css'

const KIND = { circuit: 'Circuit', structure: 'Structure', splice: 'Splice', place: 'Place' } as const

/** Finds a circuit, line name, structure, splice or pair of coordinates, and takes the map there. '/' comes here from anywhere. */
export function FindField() {
  const listId = useId()
  const local = useLocalText()
  const isNarrow = useMedia(PHONE)
  const input = useRef<HTMLInputElement>(null)
  const { query, goTo, keepQuery } = useGoTo()
  const [draft, setDraft] = useState<string | null>(null)
  const text = draft ?? query
  const [open, setOpen] = useState(false)
  const [active, setActive] = useState(0)
  /** Somebody walked to the active one: of several with one name only that is a choice. */
  const [walked, setWalked] = useState(false)
  const asked = useDeferredValue(text)
  const search = useSearch(asked)
  const client = useQueryClient()
  const items = search.data?.items ?? []
  const alike = namesakes(items, asked)
  useSlashKey(input)

  const choose = (item: FoundItem) => {
    setDraft(null)
    setOpen(false)
    goTo(item)
    input.current?.blur()
  }
  /** Enter may come before the answer: never take what an earlier text had found. */
  const chooseWhenThere = async () => {
    const found = (await client.fetchQuery(searchFor(text)).catch(() => null))?.items ?? []
    const [first] = found
    if (first && namesakes(found, text).length < 2 && input.current?.value === text) choose(first)
  }
  const onKeyDown = (e: KeyboardEvent) => {
    const chosen = asked === text && !search.isPlaceholderData ? items[active] : undefined
    if (e.key === 'Enter' && open && chosen) {
      if (walked || alike.length < 2) choose(chosen)
    }
    else if (e.key === 'Enter' && open && text.trim() !== '') void chooseWhenThere()
    else if (e.key === 'ArrowDown') {
      setOpen(true)
      // The first of several is active before anybody walked: the first step down is to it.
      setActive((i) => (walked || alike.length < 2 ? Math.min(i + 1, items.length - 1) : i))
      setWalked(true)
    } else if (e.key === 'ArrowUp') setActive((i) => Math.max(i - 1, 0))
    else if (e.key === 'Escape') {
      if (open && text !== '') setOpen(false)
      else {
        setDraft(null)
        keepQuery('')
        input.current?.blur()
      }
    } else return
    e.preventDefault()
  }
  const shown = open && text.trim() !== ''
  return (
    <div className={css.find} role="search">
      <Icon name="search" className={css.icon} />
      <input
        ref={input}
        className={css.input}
        type="search"
        role="combobox"
        aria-label="Find a circuit, structure, splice or coordinates"
        placeholder={isNarrow ? 'Find' : 'Find circuit, structure, splice'}
        autoComplete="off"
        spellCheck={false}
        aria-expanded={shown}
        aria-controls={listId}
        aria-autocomplete="list"
        aria-activedescendant={shown && items[active] ? `${listId}-${active}` : undefined}
        aria-keyshortcuts="/"
        value={text}
        onFocus={() => setOpen(text !== query)}
        onBlur={() => setOpen(false)}
        onKeyDown={onKeyDown}
        onChange={(e) => {
          setDraft(e.target.value)
          setActive(0)
          setWalked(false)
          setOpen(true)
          if (e.target.value === '') keepQuery('')
        }}
      />
      <kbd className={css.key} aria-hidden="true">
        /
      </kbd>
      <div hidden={!shown} className={css.list}>
        {alike.length > 1 && (
          <p className={css.alike} role="status">
            {alike.length} {KIND[alike[0]?.kind ?? 'structure'].toLowerCase()}s are called {alike[0]?.label}. Choose by circuit.
          </p>
        )}
        {search.data?.note !== undefined && (
          <p className={css.alike} role="status">
            {local(search.data.note)}
          </p>
        )}
        <ul id={listId} role="listbox" aria-label="Found">
          {items.map((item, i) => (
            <li
              key={`${item.kind}-${item.id}-${item.label}`}
              id={`${listId}-${i}`}
              role="option"
              aria-selected={i === active}
              className={css.option}
              onPointerMove={() => setActive(i)}
              onPointerDown={(e) => {
                e.preventDefault()
                choose(item)
              }}>
              <span className={css.kind}>{KIND[item.kind]}</span>
              <span className={css.label}>{item.label}</span>
              {item.detail && <span className={css.detail}>{item.detail}</span>}
            </li>
          ))}
        </ul>
        {shown && items.length === 0 && search.data?.note === undefined && (
          <p className={css.none} role="status">
            {search.isError
              ? `${asSentences(search.error).title} ${asSentences(search.error).remedy}`
              : search.isFetching
                ? 'Looking…'
                : `Nothing is called '${text.trim()}'. Try a circuit, a structure number, a splice label, or latitude and longitude.`}
          </p>
        )}
      </div>
    </div>
  )
}

function useSlashKey(input: React.RefObject<HTMLInputElement | null>) {
  useEffect(() => {
    const onKey = (e: globalThis.KeyboardEvent) => {
      const inField =
        e.target instanceof HTMLElement && (e.target.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(e.target.tagName))
      if (e.key !== '/' || e.ctrlKey || e.metaKey || e.altKey || inField) return
      e.preventDefault()
      input.current?.focus()
      input.current?.select()
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [input])
}
