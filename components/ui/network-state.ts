'use client'
import { useQuery } from '@tanstack/react-query'
import { stateJson } from '@/lib/contract/api'
import { fetchJson } from './fetch-json'

/** What every screen keeps an eye on. Asked for every 15 s, so that other people's imports and decisions appear without a reload. */
export const useNetworkState = () =>
  useQuery({
    queryKey: ['state'],
    queryFn: ({ signal }) => fetchJson('/api/v1/state', stateJson, { signal }),
    refetchInterval: 15_000,
    staleTime: 5_000,
  })
