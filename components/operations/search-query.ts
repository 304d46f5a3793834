'use client'
import { keepPreviousData, queryOptions, useQuery } from '@tanstack/react-query'
import type { z } from 'zod'
import { fetchJson } from '@/components/ui/fetch-json'
import { searchResult } from '@/lib/contract/api'

export type FoundItem = z.infer<typeof searchResult>['items'][number]

/** GET /api/v1/search for what has been typed; of lines that number alike these circuits come first. */
export const searchFor = (text: string, firstCircuitIds: readonly number[] = []) => queryOptions({
  queryKey: ['search', text, ...firstCircuitIds],
  queryFn: ({ signal }) => {
    const query = new URLSearchParams({ q: text, ...(firstCircuitIds.length === 0 ? {} : { first: firstCircuitIds.join(',') }) })
    return fetchJson(`/api/v1/search?${query}`, searchResult, { signal })
  },
  enabled: text.trim() !== '',
  staleTime: 10_000,
})

/** The last answer stays until the next is there; `isPlaceholderData` tells it apart. */
export const useSearch = (text: string) => useQuery({ ...searchFor(text), placeholderData: keepPreviousData })

/** What bears exactly the name that was typed, of the first kind that does: a person must choose among several. */
export function namesakes(items: FoundItem[], text: string): FoundItem[] {
  const named = text.trim().replace(/^(str|structure|splice|circuit)\.?\s+/i, '').toLowerCase()
  const same = items.filter((i) => i.label.toLowerCase() === named)
  return same.filter((i) => i.kind === same[0]?.kind)
}
