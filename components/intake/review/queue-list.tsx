'use client'
import { useEffect, useRef } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { Button } from '@/components/ui/button'
import { cx } from '@/components/ui/class-names'
import type { ReviewItem } from '@/lib/contract/contract'
import { reviewCauseText } from '@/lib/geo/review-cause'
import { capital, readingName } from '../reading-name'
import css from './review.module.css'

/** Who waits, urgent first. */
export function QueueList({
  items,
  selected,
  onSelect,
  more,
  marks,
}: {
  items: ReviewItem[]
  selected: number | null
  onSelect(readingId: number): void
  more: { has: boolean; busy: boolean; load(): void }
  /** Readings marked to be settled together; null where nothing is settled. */
  marks: { marked: ReadonlySet<number>; toggle(readingId: number): void } | null
}) {
  const current = useRef<HTMLButtonElement>(null)
  useEffect(() => {
    void current.current?.scrollIntoView({ block: 'nearest' })
  }, [selected])
  return (
    <ol className={css.queue} aria-label="Readings">
      {items.map((i) => {
        const here = i.reading.id === selected
        return (
          <li key={i.reading.id} className={marks ? css.markable : undefined}>
            {marks && (
              <input
                type="checkbox"
                className={css.mark}
                aria-label={`Mark ${readingName(i.reading.reading_id, i.reading.row, `import ${i.reading.import_id}`)}`}
                checked={marks.marked.has(i.reading.id)}
                onChange={() => marks.toggle(i.reading.id)}
              />
            )}
            <button
              type="button"
              ref={here ? current : undefined}
              aria-current={here || undefined}
              className={cx(css.item, here && css.here)}
              onClick={() => onSelect(i.reading.id)}
            >
              <span className={css.itemHead}>
                <b>{capital(readingName(i.reading.reading_id, i.reading.row, `import ${i.reading.import_id}`))}</b>
                {i.notice && (
                  <em className={i.notice.class === 'critical' ? css.critical : undefined}>
                    <ClassMark class={i.notice.class} size={14} />
                    {i.notice.class}
                    {i.notice.acknowledged_at !== null && ', told'}
                  </em>
                )}
              </span>
              <span className={css.itemWhy}>
                {i.cause === null ? (i.reading.placement.reasons[0]?.text ?? '') : reviewCauseText(i.cause)}
              </span>
              <span className={css.itemWhere}>{circuitsOf(i)}</span>
            </button>
          </li>
        )
      })}
      {more.has && (
        <li className={css.more}>
          <Button size="small" busy={more.busy} onClick={more.load}>
            Load more
          </Button>
        </li>
      )}
    </ol>
  )
}

function circuitsOf(item: ReviewItem): string {
  const names = [...new Set(item.candidates.map((c) => c.circuit))]
  if (names.length === 0) return typeof item.reading.fields['crew'] === 'string' ? `read by ${item.reading.fields['crew']}` : item.reading.survey
  return names.length > 2 ? `${names.slice(0, 2).join(', ')} and ${names.length - 2} more` : names.join(' or ')
}
