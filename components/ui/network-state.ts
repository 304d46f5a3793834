'use client'
import { useQuery } from '@tanstack/react-query'
import { z } from 'zod'
import { classCounts } from '@/lib/contract/contract'
import { fetchJson } from './fetch-json'

/** GET /api/v1/state: what every screen keeps an eye on. Read as far as this page needs it. */
export const networkState = z.object({
  data_version: z.int(),
  policy_version: z.int().nullable(),
  review_count: z.int(),
  urgent_count: z.int(),
  network_bbox: z.tuple([z.number(), z.number(), z.number(), z.number()]).nullable(),
  counts: classCounts,
})
export type NetworkState = z.infer<typeof networkState>

/** Asked for every 15 s, so that other people's imports and decisions appear without a reload. */
export const useNetworkState = () =>
  useQuery({ queryKey: ['state'], queryFn: ({ signal }) => fetchJson('/api/v1/state', networkState, { signal }), refetchInterval: 15_000, staleTime: 5_000 })
