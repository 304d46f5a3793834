'use client'
import { keepPreviousData, useInfiniteQuery, useMutation, useQuery } from '@tanstack/react-query'
import { fetchJson, sending } from '@/components/ui/fetch-json'
import { useWritten } from '@/components/ui/use-written'
import { callEntry, callPage, lookAgain, type RecordCall, type StrikeCall } from '@/lib/contract/calls'

/** The log from a moment on, newest first, page after page. `version` asks again when anything in the store has changed. */
export const useCalls = (circuitIds: readonly number[], sinceIso: string | null, version: number | undefined) =>
  useInfiniteQuery({
    queryKey: ['calls', circuitIds.join(), sinceIso, version],
    queryFn: ({ pageParam, signal }) => {
      const query = new URLSearchParams({ limit: '200' })
      if (circuitIds.length > 0) query.set('circuit', circuitIds.join(','))
      if (sinceIso !== null) query.set('since', sinceIso)
      if (pageParam !== '') query.set('cursor', pageParam)
      return fetchJson(`/api/v1/calls?${query}`, callPage, { signal })
    },
    initialPageParam: '',
    getNextPageParam: (last) => last.next_cursor ?? undefined,
    placeholderData: keepPreviousData,
  })

/** What comes back in this peak-load period, or in the next; asked for again as periods begin and end. */
export const useLookAgain = (version: number | undefined) =>
  useQuery({
    queryKey: ['look-again', version],
    queryFn: ({ signal }) => fetchJson('/api/v1/look-again', lookAgain, { signal }),
    placeholderData: keepPreviousData,
    refetchInterval: 60_000,
  })

/** Everything that shows the log or what it answers. */
const SHOWN_BY = ['calls', 'look-again', 'splice', 'urgent', 'state', 'splices']

export function useRecordCall(spliceId: number) {
  const onSuccess = useWritten(SHOWN_BY)
  return useMutation({ mutationFn: (said: RecordCall) => fetchJson(`/api/v1/splices/${spliceId}/calls`, callEntry, sending('POST', said)), onSuccess })
}

export function useStrikeCall(id: number) {
  const onSuccess = useWritten(SHOWN_BY)
  return useMutation({ mutationFn: (said: StrikeCall) => fetchJson(`/api/v1/calls/${id}/strike`, callEntry, sending('POST', said)), onSuccess })
}
