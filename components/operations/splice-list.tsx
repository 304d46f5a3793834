'use client'
import { useEffect, useId, useMemo, useRef, useState, type KeyboardEvent } from 'react'
import { useVirtualizer } from '@tanstack/react-virtual'
import { setHovered, unhover, useIsHovered } from '@/components/map/hovered'
import type { Selection } from '@/components/map/types'
import { cx } from '@/components/ui/class-names'
import type { ListedSplice } from '@/lib/contract/contract'
import type { Corridor } from '@/lib/contract/corridors'
import { indexOfSelection, listRows, rowAfterKey, startOfSelection, type ListBy, type ListRow } from './list-rows'
import { CircuitRow, CorridorRow, HeadingRow, rowLabel, SpliceRow, type RowWords } from './splice-row'
import css from './splice-list.module.css'

const CIRCUIT_PX = 32
const SPLICE_PX = 48
/** With what is to be done, and why it stands where it does. */
const WATCHED_PX = 84

/** With how far its circuits run together. */
const CORRIDOR_PX = 48

const heightOf = (row: ListRow | undefined): number =>
  row?.type === 'corridor' ? CORRIDOR_PX : row?.type !== 'splice' ? CIRCUIT_PX : row.splice.watch ? WATCHED_PX : SPLICE_PX

const NAMES: Record<ListBy, string> = {
  risk: 'Splices, worst first: degraded and worse of every circuit by risk, then circuit by circuit',
  circuit: 'Splices, worst first: circuit by circuit, by risk',
  corridor: 'Splices, worst first: corridor by corridor, then the circuits that hang alone, by risk',
}

export interface SpliceListProps {
  splices: readonly ListedSplice[]
  by: ListBy
  /** Circuits on the same structures, where the list is put together by them. */
  corridors: readonly Corridor[]
  selection: Selection
  /** `byArrow`: a step on the way, not worth a place in the browser's history. */
  onSelect(row: ListRow, byArrow: boolean): void
  words: RowWords
  foot: string
}

/** The watch list, of what the map shows: degraded and worse of every circuit by risk, then circuit by circuit. Arrow keys walk it and take the map along. */
export function SpliceList({ splices, by, corridors, selection, onSelect, words, foot }: SpliceListProps) {
  const id = useId()
  const scroll = useRef<HTMLDivElement>(null)
  const rows = useMemo(() => listRows(splices, by, corridors), [splices, by, corridors])
  const [steppedOn, setSteppedOn] = useState<string | null>(null)
  const selectedIndex = useMemo(() => indexOfSelection(rows, selection), [rows, selection])
  const startIndex = useMemo(() => startOfSelection(rows, selection), [rows, selection])
  const isCircuit = selection?.kind === 'circuit'
  const isStepped = rows[selectedIndex]?.key === steppedOn
  const activeIndex = selectedIndex >= 0 ? selectedIndex : rows.findIndex((r) => r.key === steppedOn)
  const virtual = useVirtualizer({
    count: rows.length,
    getScrollElement: () => scroll.current,
    estimateSize: (i) => heightOf(rows[i]),
    getItemKey: (i) => rows[i]?.key ?? i,
    overscan: 12,
  })
  useEffect(() => {
    virtual.measure()
  }, [rows, virtual])
  useEffect(() => {
    // A step by arrow scrolls as little as it can; what was chosen elsewhere comes to the middle, between its neighbours, and a circuit to the top.
    const at = isStepped ? selectedIndex : startIndex
    const row = virtual.measurementsCache[at]
    const frame = scroll.current
    if (!row || !frame) return
    const inView = row.start >= frame.scrollTop && row.end <= frame.scrollTop + frame.clientHeight
    if (!inView) virtual.scrollToIndex(at, { align: isStepped ? 'auto' : isCircuit ? 'start' : 'center' })
  }, [selectedIndex, startIndex, isCircuit, isStepped, virtual])

  const step = (row: ListRow, byArrow: boolean) => {
    setSteppedOn(row.key)
    onSelect(row, byArrow)
  }
  const onKeyDown = (e: KeyboardEvent) => {
    const page = Math.max(1, Math.floor((scroll.current?.clientHeight ?? SPLICE_PX) / SPLICE_PX) - 1)
    const next = rowAfterKey(e.key, activeIndex, rows.length, page, rows[0]?.type === 'heading' ? 1 : 0)
    const row = next === null ? undefined : rows[next]
    if (!row) return
    e.preventDefault()
    step(row, true)
  }
  const active = rows[activeIndex]
  const items = virtual.getVirtualItems() // a row out of sight is not there to be pointed at
  return (
    <div className={css.wrap}>
      <div
        ref={scroll}
        className={css.scroll}
        role="listbox"
        tabIndex={0}
        aria-label={NAMES[by]}
        id="splice-list"
        aria-activedescendant={active && items.some(({ index }) => rows[index]?.key === active.key) ? `${id}-${active.key}` : undefined}
        onKeyDown={onKeyDown}>
        <div className={css.inner} role="presentation" style={{ height: virtual.getTotalSize() }}>
          {items.map((item) => {
            const row = rows[item.index]
            if (!row) return null
            return (
              <div
                key={item.key}
                id={`${id}-${row.key}`}
                role="option"
                aria-selected={item.index === selectedIndex}
                aria-disabled={row.type === 'heading' || undefined}
                aria-setsize={rows.length}
                aria-posinset={item.index + 1}
                aria-label={rowLabel(row, words)}
                onPointerEnter={() => { if (row.type === 'splice') setHovered({ id: row.splice.id, lon: row.splice.lon, lat: row.splice.lat, by: 'list' }) }}
                onPointerLeave={() => unhover('list')}
                onClick={row.type === 'heading' ? undefined : () => step(row, false)}
                style={{ top: item.start }}
                className={cx(css.row, css[row.type], row.type === 'splice' && row.splice.watch && css.watched, item.index === activeIndex && css.active)}>
                <Row row={row} words={words} />
              </div>
            )
          })}
        </div>
      </div>
      <p className={css.foot} role="status">
        {foot}
      </p>
    </div>
  )
}

function Row({ row, words }: { row: ListRow; words: RowWords }) {
  if (row.type === 'heading') return <HeadingRow counts={row.counts} />
  if (row.type === 'circuit') return <CircuitRow row={row} words={words} />
  if (row.type === 'corridor') return <CorridorRow row={row} words={words} />
  return (
    <>
      <SpliceRow splice={row.splice} among={row.among} words={words} />
      <PointedAt id={row.splice.id} />
    </>
  )
}

/** The row of the splice that is pointed at on the map or on the strip. */
function PointedAt({ id }: { id: number }) {
  return useIsHovered(id) && <span className={css.pointed} data-hovered={id} aria-hidden="true" />
}
