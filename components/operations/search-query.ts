'use client'
import { keepPreviousData, useQuery } from '@tanstack/react-query'
import { z } from 'zod'
import { fetchJson } from '@/components/ui/fetch-json'

const box = z.tuple([z.number(), z.number(), z.number(), z.number()])
const searchAnswer = z.object({
  items: z.array(z.object({
    kind: z.enum(['circuit', 'structure', 'splice', 'place']), id: z.number(), label: z.string(), detail: z.string().nullable(),
    lon: z.number(), lat: z.number(), bbox: box.optional(),
  })),
})
export type FoundItem = z.infer<typeof searchAnswer>['items'][number]

/** GET /api/v1/search for what has been typed; the last answer stays until the next is there. */
export const useSearch = (text: string) => useQuery({
  queryKey: ['search', text],
  queryFn: ({ signal }) => fetchJson(`/api/v1/search?q=${encodeURIComponent(text)}`, searchAnswer, { signal }),
  enabled: text.trim() !== '',
  placeholderData: keepPreviousData,
})
