'use client'
import { useInfiniteQuery, useQuery, useQueryClient, type InfiniteData } from '@tanstack/react-query'
import { fetchJson } from '@/components/ui/fetch-json'
import { reviewPage, type ReviewPage } from '@/lib/contract/intake'
import type { ReviewCause, ReviewItem } from '@/lib/contract/contract'

export type QueueState = 'review' | 'rejected'
type Pages = InfiniteData<ReviewPage, string>

/** Which readings are looked at: a state, and within it one cause of waiting or all. */
export interface QueueView {
  state: QueueState
  cause: ReviewCause | null
}

export const queueKey = ({ state, cause }: QueueView) => ['review', state, cause ?? 'all'] as const

/** The readings that wait, urgent first; or those that people set aside. Loaded page by page. */
export const useQueue = (view: QueueView) =>
  useInfiniteQuery({
    queryKey: queueKey(view),
    initialPageParam: '',
    queryFn: ({ pageParam, signal }) => {
      const query = new URLSearchParams({ state: view.state })
      if (view.cause !== null) query.set('cause', view.cause)
      if (pageParam !== '') query.set('cursor', pageParam)
      return fetchJson(`/api/v1/review?${query}`, reviewPage, { signal })
    },
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
    remove(view: QueueView, item: ReviewItem): Pages | undefined {
      const before = client.getQueryData<Pages>(queueKey(view))
      client.setQueryData<Pages>(queueKey(view), (now) => now && without(now, item))
      return before
    },
    restore(view: QueueView, before: Pages | undefined): void {
      client.setQueryData(queueKey(view), before)
    },
    /** After the server has spoken: everything that shows placements is asked again, this queue when it is next opened. */
    settle(item: ReviewItem): void {
      client.setQueryData(['review', 'one', item.reading.id], item)
      void client.invalidateQueries({ predicate: (q) => q.queryKey[0] !== 'review' })
      void client.invalidateQueries({ queryKey: ['review', 'rejected'] })
      void client.invalidateQueries({ queryKey: ['review', 'review'], refetchType: 'none' })
    },
    reload(): void {
      void client.invalidateQueries({ queryKey: ['review'] })
    },
  }
}

/** The pages of a queue without one reading, its counts down by it. */
export function without(pages: Pages, item: ReviewItem): Pages {
  const { id } = item.reading
  if (!pages.pages.some((p) => p.items.some((i) => i.reading.id === id))) return pages
  const counted = (c: ReviewPage['causes'][number]) =>
    c.cause === item.cause ? { ...c, count: c.count - 1, urgent: c.urgent - Number(item.urgent) } : c
  return {
    ...pages,
    pages: pages.pages.map((p) => ({
      ...p,
      items: p.items.filter((i) => i.reading.id !== id),
      causes: p.causes.map(counted).filter((c) => c.count > 0),
      ...(p.total === undefined ? {} : { total: Math.max(0, p.total - 1) }),
    })),
  }
}
