'use client'
import { keepPreviousData, useQueries, useQuery, type UseQueryResult } from '@tanstack/react-query'
import { fetchJson } from '@/components/ui/fetch-json'
import { circuitJoints, sectionList, type CircuitJointsJson } from '@/lib/contract/loading'

type Answer = UseQueryResult<CircuitJointsJson>

/** Kept outside the component: the same answers then give the same arrays, and nothing is prepared anew while a slider moves. */
const together = (answers: Answer[]) => ({
  data: answers.every(({ data }) => data !== undefined) ? answers.flatMap(({ data }) => data ?? []) : undefined,
  error: answers.find(({ error }) => error)?.error ?? null,
  retry: () => answers.forEach((answer) => { if (answer.isError) void answer.refetch() }),
})

/** Each circuit's splices, asked for once and again when anything in the store has changed. */
export const useJoints = (circuitIds: readonly number[], version: number | undefined) =>
  useQueries({
    queries: circuitIds.map((id) => ({
      queryKey: ['joints', id, version],
      queryFn: ({ signal }: { signal: AbortSignal }) => fetchJson(`/api/v1/circuits/${id}/joints`, circuitJoints, { signal }),
      enabled: version !== undefined,
      placeholderData: (before: CircuitJointsJson | undefined) => (before?.circuit_id === id ? before : undefined),
    })),
    combine: together,
  })

export const useSections = (version: number | undefined) =>
  useQuery({
    queryKey: ['sections', version],
    queryFn: ({ signal }) => fetchJson('/api/v1/sections', sectionList, { signal }),
    select: (answer) => answer.items,
    placeholderData: keepPreviousData,
    enabled: version !== undefined,
  })
