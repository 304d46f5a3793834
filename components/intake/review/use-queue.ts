'use client'
import { useInfiniteQuery, useQuery, useQueryClient, type InfiniteData } from '@tanstack/react-query'
import { fetchJson } from '@/components/ui/fetch-json'
import { reviewPage } from '@/lib/contract/intake'
import type { ReviewItem } from '@/lib/contract/contract'
import type { z } from 'zod'

export type QueueState = 'review' | 'rejected'
type Page = z.infer<typeof reviewPage>
type Pages = InfiniteData<Page, string>

export const queueKey = (state: QueueState) => ['review', state] as const

/** The readings that wait, urgent first; or those that people rejected. Loaded page by page. */
export const useQueue = (state: QueueState) =>
  useInfiniteQuery({
    queryKey: queueKey(state),
    initialPageParam: '',
    queryFn: ({ pageParam, signal }) =>
      fetchJson(`/api/v1/review?state=${state}${pageParam === '' ? '' : `&cursor=${encodeURIComponent(pageParam)}`}`, reviewPage, {
        signal,
      }),
    getNextPageParam: (last) => last.next_cursor ?? undefined,
    staleTime: 30_000,
  })

/** One reading by the address, also where it is not among those loaded or has left the queue. */
export const useOneItem = (readingId: number | null) =>
  useQuery({
    queryKey: ['review', 'one', readingId],
    enabled: readingId !== null,
    queryFn: async ({ signal }) => (await fetchJson(`/api/v1/review?reading=${readingId}`, reviewPage, { signal })).items[0] ?? null,
  })

/** Takes an item out of a loaded queue, and puts it back where it was. */
export function useQueueEdits() {
  const client = useQueryClient()
  return {
    remove(state: QueueState, readingId: number): Pages | undefined {
      const before = client.getQueryData<Pages>(queueKey(state))
      client.setQueryData<Pages>(
        queueKey(state),
        (now) =>
          now && {
            ...now,
            pages: now.pages.map((p) => {
              const items = p.items.filter((i) => i.reading.id !== readingId)
              const gone = now.pages.some((q) => q.items.some((i) => i.reading.id === readingId))
              return { ...p, items, ...(p.total === undefined || !gone ? {} : { total: Math.max(0, p.total - 1) }) }
            }),
          },
      )
      return before
    },
    restore(state: QueueState, before: Pages | undefined): void {
      client.setQueryData(queueKey(state), before)
    },
    /** After the server has spoken: everything that shows placements is asked again, this queue when it is next opened. */
    settle(item: ReviewItem): void {
      client.setQueryData(['review', 'one', item.reading.id], item)
      void client.invalidateQueries({ predicate: (q) => q.queryKey[0] !== 'review' })
      void client.invalidateQueries({ queryKey: queueKey('rejected') })
    },
    reload(): void {
      void client.invalidateQueries({ queryKey: ['review'] })
    },
  }
}
