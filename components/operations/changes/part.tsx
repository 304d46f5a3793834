'use client'
import Link from 'next/link'
import type { ReactNode } from 'react'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { DataTable } from '@/components/ui/data-table'
import { ErrorState } from '@/components/ui/states'
import type { ChangeKind, ItemOf, PartOf } from '@/lib/contract/changes'
import { formatNumber } from '@/lib/units/format'
import { useMore, type ChangesAsked } from './use-changes'
import { KIND_WORDS } from './words'
import css from './changes.module.css'

export interface PartProps<K extends ChangeKind> {
  part: PartOf<K>
  asked: ChangesAsked
  version: number | undefined
}

interface Columns<K extends ChangeKind> extends PartProps<K> {
  heads: readonly string[]
  /** One row; its cells carry `data-label` for a phone, where no heads are seen. */
  row(item: ItemOf<K>): ReactNode
  note?: ReactNode
}

/** One kind of change as a table: how many, the first of them, and the others where they are asked for. Nothing where there are none. */
export function Part<K extends ChangeKind>({ part, asked, version, heads, row, note }: Columns<K>) {
  const more = useMore(asked, part, version)
  const items = [part, ...more.data?.pages ?? []].flatMap((page) => page.items as ItemOf<K>[])
  if (part.items.length === 0) return null
  const { title, noun } = KIND_WORDS[part.kind]
  const hasMore = more.data ? more.hasNextPage : part.next_cursor !== null
  return (
    <section className={css.part} id={part.kind} tabIndex={-1} aria-labelledby={`${part.kind}-title`}>
      <h2 id={`${part.kind}-title`}>
        {title} <span>{formatNumber(part.count, 0)}</span>
      </h2>
      {note && <p className={css.note}>{note}</p>}
      <DataTable caption={title} className={css.table}>
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{items.map(row)}</tbody>
      </DataTable>
      {more.isError && <ErrorState small {...asSentences(more.error)} />}
      {hasMore && (
        <p className={css.more}>
          The first {formatNumber(items.length, 0)}
          {part.kind === 'reading' ? ' lines.' : ` of ${formatNumber(part.count, 0)} ${noun(part.count)}.`}
          <Button size="small" className="no-print" busy={more.isFetching} onClick={() => void more.fetchNextPage()}>
            Show more
          </Button>
        </p>
      )}
    </section>
  )
}

/** The splice and its circuit, as the first cell of a row. */
export function SpliceCell({ of }: { of: Pick<ItemOf<'class'>, 'id' | 'splice' | 'circuit_id' | 'circuit'> }) {
  return (
    <th scope="row">
      <Link href={`/splices/${of.id}`} prefetch={false}>
        {of.splice}
      </Link>
      <small>
        <Link href={`/circuits/${of.circuit_id}`} prefetch={false}>
          {of.circuit}
        </Link>
      </small>
    </th>
  )
}
