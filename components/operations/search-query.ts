'use client'
import { keepPreviousData, useQuery } from '@tanstack/react-query'
import type { z } from 'zod'
import { fetchJson } from '@/components/ui/fetch-json'
import { searchResult } from '@/lib/contract/api'

export type FoundItem = z.infer<typeof searchResult>['items'][number]

/** GET /api/v1/search for what has been typed; the last answer stays until the next is there. */
export const useSearch = (text: string) => useQuery({
  queryKey: ['search', text],
  queryFn: ({ signal }) => fetchJson(`/api/v1/search?q=${encodeURIComponent(text)}`, searchResult, { signal }),
  enabled: text.trim() !== '',
  placeholderData: keepPreviousData,
})
