'use client'
import { useQuery } from '@tanstack/react-query'
import { stateJson } from '@/lib/contract/api'
import { fetchJson } from './fetch-json'

/** What every screen keeps an eye on. Asked for every 5 s, so that what has to be called now appears on other people's screens without a reload. */
export const useNetworkState = () =>
  useQuery({
    queryKey: ['state'],
    queryFn: ({ signal }) => fetchJson('/api/v1/state', stateJson, { signal }),
    refetchInterval: 5_000,
    staleTime: 2_500,
  })
