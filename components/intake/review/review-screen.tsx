'use client'
import Link from 'next/link'
import { useEffect, useRef, useState, type RefObject } from 'react'
import { parseAsInteger, parseAsStringLiteral, useQueryStates } from 'nuqs'
import type { MapView } from '@/components/map/types'
import { Button, IconButton } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { EmptyState, ErrorState, Skeleton } from '@/components/ui/states'
import { Segmented } from '@/components/ui/tabs'
import { useMedia } from '@/components/ui/use-media'
import { reviewCause, type ReviewItem } from '@/lib/contract/contract'
import { count } from '../words'
import { CauseFilter } from './cause-filter'
import { ItemDesk } from './item-desk'
import { KeyLegend } from './key-legend'
import { TYPING_PAUSE_MS } from './keys'
import { ManyAtOnce } from './many-at-once'
import { NoticeLine } from './notice-line'
import { QueueList } from './queue-list'
import { useDecisions } from './use-decisions'
import { useReviewKeys } from './use-review-keys'
import { useOneItem, useQueue, type QueueState } from './use-queue'
import css from './review.module.css'

const ADDRESS = {
  reading: parseAsInteger,
  state: parseAsStringLiteral(['review', 'rejected'] as const).withDefault('review'),
  cause: parseAsStringLiteral(reviewCause.options),
}
/** Below this the desk is one column, and the bar scrolls out of sight. */
const ONE_COLUMN = '(max-width: 900px)'

/** Doubtful placements one at a time, by mouse, finger or keys. */
export function ReviewScreen() {
  const [address, setAddress] = useQueryStates(ADDRESS, { history: 'replace' })
  const shown = { state: address.state, cause: address.state === 'review' ? address.cause : null }
  const queue = useQueue(shown)
  const items = queue.data?.pages.flatMap((p) => p.items) ?? []
  const listed = items.find((i) => i.reading.id === address.reading)
  const alone = useOneItem(address.reading !== null && !listed ? address.reading : null)
  const current = listed ?? (address.reading !== null ? (alone.data ?? null) : (items[0] ?? null))
  const [view, setView] = useState<MapView | null>(null)
  const [legend, setLegend] = useState(false)
  const [stepped, setStepped] = useState(false)
  const quietUntilRef = useRef(0)
  const [marked, setMarked] = useState<ReadonlySet<number>>(new Set())
  const go = (readingId: number | null) => void setAddress({ reading: readingId })
  const decisions = useDecisions(shown, go)
  const oneColumn = useMedia(ONE_COLUMN)

  // The address holds what is on the desk, so that it can be sent to somebody.
  const first = items[0]?.reading.id ?? null
  useEffect(() => {
    if (address.reading === null && first !== null) void setAddress({ reading: first })
  }, [address.reading, first, setAddress])

  const step = (by: 1 | -1) => {
    setStepped(true)
    const at = items.findIndex((i) => i.reading.id === current?.reading.id)
    const next = items[at === -1 ? 0 : at + by]
    if (next) go(next.reading.id)
    else if (by === 1 && queue.hasNextPage) void queue.fetchNextPage()
  }
  /** The one after this, before this leaves the list. */
  const advance = (from: ReviewItem) => {
    const at = items.findIndex((i) => i.reading.id === from.reading.id)
    go((items[at + 1] ?? items[at - 1])?.reading.id ?? null)
  }
  const causes = queue.data?.pages[0]?.causes ?? []
  const total = queue.data?.pages[0]?.total ?? items.length
  const waiting = causes.reduce((sum, c) => sum + c.count, 0)
  const notice = decisions.notice && (
    <NoticeLine notice={decisions.notice} undo={oneColumn ? decisions.undoLast : null} onDismiss={decisions.dismiss} />
  )
  const at = items.findIndex((i) => i.reading.id === current?.reading.id)

  return (
    <div className={css.screen}>
      <header className={css.bar}>
        <div className={css.title}>
          <Link href="/intake">Intake</Link>
          <span aria-hidden="true">/</span>
          <h1>Review queue</h1>
        </div>
        <Segmented<QueueState>
          label="Readings shown"
          size="small"
          value={address.state}
          onValueChange={(state) => void setAddress({ state, cause: null, reading: null })}
          options={[
            { value: 'review', label: address.state === 'review' && queue.isSuccess ? `To review ${count(waiting)}` : 'To review' },
            { value: 'rejected', label: 'Set aside' },
          ]}
        />
        {!oneColumn && notice}
        <div className={css.steps}>
          <span className={css.at}>{at === -1 ? '' : `${at + 1} of ${total}`}</span>
          <IconButton icon="up" label="Previous (k)" onClick={() => step(-1)} disabled={at <= 0} />
          <IconButton
            icon="down"
            label="Next (j)"
            onClick={() => step(1)}
            disabled={at === -1 || (at >= items.length - 1 && !queue.hasNextPage)}
          />
          {address.state === 'review' && (
            <ManyAtOnce causes={causes} cause={address.cause} marked={[...marked]} onDone={() => setMarked(new Set())} />
          )}
          <Button size="small" onClick={() => decisions.undoLast?.()} disabled={decisions.undoLast === null}>
            Undo
          </Button>
          <Button size="small" className={css.keysButton} variant="quiet" aria-pressed={legend} onClick={() => setLegend(!legend)}>
            Keys <kbd>?</kbd>
          </Button>
        </div>
      </header>
      {current === null && <UndoKey undo={decisions.undoLast} quietUntilRef={quietUntilRef} />}
      {current === null && oneColumn && notice}
      {queue.isPending && <DeskBones />}
      {queue.isError && items.length === 0 && (
        <ErrorState {...asSentences(queue.error)} action={<Button onClick={() => void queue.refetch()}>Try again</Button>} />
      )}
      {queue.isSuccess && items.length === 0 && address.reading === null && (
        <Empty state={address.state} filtered={waiting > 0} onAll={() => void setAddress({ cause: null })} />
      )}
      {queue.isSuccess && (items.length > 0 || address.reading !== null) && (
        <div className={css.desk}>
          <div className={css.side}>
            {address.state === 'review' && (
              <CauseFilter causes={causes} cause={address.cause} onCause={(cause) => void setAddress({ cause, reading: null })} />
            )}
            <QueueList
            items={items}
            selected={current?.reading.id ?? null}
            onSelect={go}
            marks={address.state === 'review' ? { marked, toggle: (id) => setMarked((all) => toggled(all, id)) } : null}
            more={{ has: queue.hasNextPage, busy: queue.isFetchingNextPage, load: () => void queue.fetchNextPage() }}
            />
          </div>
          {current !== null ? (
            <ItemDesk
              key={`${current.reading.id} ${current.reading.placement.decided_at}`}
              item={current}
              view={view}
              onView={setView}
              onStep={step}
              onUndo={decisions.undoLast}
              oneColumn={oneColumn}
              notice={notice}
              takeFocus={stepped}
              quietUntilRef={quietUntilRef}
              onLegend={() => setLegend((l) => !l)}
              onHideKeys={() => {
                setLegend(false)
                return legend
              }}
              onDecide={(decision) => {
                if (decision.action === 'reject') quietUntilRef.current = performance.now() + TYPING_PAUSE_MS
                setStepped(true)
                advance(current)
                void decisions.decide(current, decision)
              }}
              onTakeBack={() => void decisions.takeBack(current.reading.id)}
            />
          ) : (
            <Missing pending={alone.isPending && address.reading !== null} onFirst={() => go(first)} />
          )}
        </div>
      )}
      {legend && <KeyLegend state={address.state} onClose={() => setLegend(false)} />}
    </div>
  )
}

const toggled = (all: ReadonlySet<number>, id: number): ReadonlySet<number> => new Set(all.has(id) ? [...all].filter((one) => one !== id) : [...all, id])

/** Keeps the undo key where nothing is on the desk. */
function UndoKey({ undo, quietUntilRef }: { undo: (() => void) | null; quietUntilRef: RefObject<number> }) {
  useReviewKeys(false, (command) => {
    if (command.do !== 'undo' || undo === null) return false
    undo()
    return true
  }, quietUntilRef)
  return null
}

function Missing({ pending, onFirst }: { pending: boolean; onFirst(): void }) {
  if (pending)
    return (
      <div className={css.bones} aria-busy="true">
        <Skeleton height={24} width={220} />
        <Skeleton height={160} />
      </div>
    )
  return (
    <EmptyState title="This reading is not on file" action={<Button onClick={onFirst}>Open the first in the queue</Button>}>
      Its import may have been undone.
    </EmptyState>
  )
}

function Empty({ state, filtered, onAll }: { state: QueueState; filtered: boolean; onAll(): void }) {
  if (filtered)
    return (
      <EmptyState title="Nothing waits for this cause any more" action={<Button onClick={onAll}>Show all that wait</Button>}>
        Other readings wait for other causes.
      </EmptyState>
    )
  if (state === 'rejected')
    return <EmptyState title="Nothing has been set aside">Readings that somebody sets aside in review stay here, and can be taken back. Rows of a file that could not be read stand in the report of their import.</EmptyState>
  return (
    <EmptyState
      title="No placement waits for review"
      action={
        <Button asChild variant="primary">
          <Link href="/intake">Import readings</Link>
        </Button>
      }
    >
      A reading comes here when its line, phase or splice is not sure enough to be believed by itself.
    </EmptyState>
  )
}

function DeskBones() {
  return (
    <div className={css.bones} aria-busy="true">
      {[0, 1, 2, 3, 4].map((i) => (
        <Skeleton key={i} height={56} />
      ))}
    </div>
  )
}
