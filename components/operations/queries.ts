'use client'
import { useEffect } from 'react'
import { keepPreviousData, useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { z } from 'zod'
import { circuitDetail } from '@/lib/contract/api'
import { circuitHealth, circuitSummary, spliceDetail, spliceList } from '@/lib/contract/contract'
import { corridorPage } from '@/lib/contract/corridors'
import { urgentReading } from '@/lib/contract/urgent'
import { filterToQuery, type SpliceFilter } from '@/lib/contract/filter'
import { settings } from '@/lib/contract/settings'
import { surveyList } from '@/lib/contract/watch'
import { fetchJson } from '@/components/ui/fetch-json'

const PAGE_ROWS = 500
/** More rows than a person reads; past it the list says that it holds the worst ones. */
export const LIST_CEILING = 5000

const joined = (...parts: string[]): string => parts.filter(Boolean).join('&')
const cursorPart = (cursor: string): string => (cursor ? `cursor=${encodeURIComponent(cursor)}` : '')

/**
 * The splices that the filter lets through, by risk. The first page is drawn at once and the rest follows by itself, up to the
 * ceiling; `version` asks again when anything in the store has changed, and the old list stays until the new one is there.
 */
export function useSpliceList(filter: SpliceFilter, version: number | undefined) {
  const query = filterToQuery(filter)
  const list = useInfiniteQuery({
    queryKey: ['splices', query, version],
    queryFn: ({ pageParam, signal }) =>
      fetchJson(`/api/v1/splices?${joined(query, 'sort=risk', `limit=${PAGE_ROWS}`, cursorPart(pageParam))}`, spliceList, { signal }),
    initialPageParam: '',
    getNextPageParam: (last, pages) => (pages.length * PAGE_ROWS >= LIST_CEILING ? undefined : (last.next_cursor ?? undefined)),
    placeholderData: keepPreviousData,
    enabled: version !== undefined,
  })
  const { hasNextPage, isFetchingNextPage, isPlaceholderData, isError, fetchNextPage } = list
  useEffect(() => {
    if (hasNextPage && !isFetchingNextPage && !isPlaceholderData && !isError) void fetchNextPage()
  }, [hasNextPage, isFetchingNextPage, isPlaceholderData, isError, fetchNextPage])
  return list
}

const circuitPage = z.object({ items: z.array(circuitSummary) })

export const useCircuits = (version: number | undefined) =>
  useQuery({
    queryKey: ['circuits', version],
    queryFn: ({ signal }) => fetchJson('/api/v1/circuits', circuitPage, { signal }),
    select: (page) => page.items,
    placeholderData: keepPreviousData,
    enabled: version !== undefined,
  })

/** Circuits on the same structures, asked for once the list is put together by them. */
export const useCorridors = (version: number | undefined, wanted: boolean) =>
  useQuery({
    queryKey: ['corridors', version],
    queryFn: ({ signal }) => fetchJson('/api/v1/corridors', corridorPage, { signal }),
    select: (page) => page.items,
    placeholderData: keepPreviousData,
    enabled: wanted && version !== undefined,
  })

export const useSplice = (id: number | null, version: number | undefined) =>
  useQuery({
    queryKey: ['splice', id, version],
    queryFn: ({ signal }) => fetchJson(`/api/v1/splices/${id}`, spliceDetail, { signal }),
    enabled: id !== null,
    placeholderData: (before, query) => (query?.queryKey[1] === id ? before : undefined),
  })

export const useCircuit = (id: number | null, version: number | undefined) =>
  useQuery({
    queryKey: ['circuit', id, version],
    queryFn: async ({ signal }) => {
      const [circuit, health] = await Promise.all([
        fetchJson(`/api/v1/circuits/${id}`, circuitDetail, { signal }),
        fetchJson(`/api/v1/circuits/${id}/health`, circuitHealth, { signal }),
      ])
      return { circuit, health }
    },
    enabled: id !== null,
    placeholderData: (before, query) => (query?.queryKey[1] === id ? before : undefined),
  })

export const useSettings = () =>
  useQuery({ queryKey: ['settings'], queryFn: ({ signal }) => fetchJson('/api/v1/settings', settings, { signal }), staleTime: 60_000 })

const urgentAnswer = z.object({ items: z.array(urgentReading) })

/** What is urgent or critical and not told yet. Asked for again whenever the state says that their number changed. */
export const useUrgent = (count: number | undefined) =>
  useQuery({
    queryKey: ['urgent', count],
    queryFn: ({ signal }) => fetchJson('/api/v1/urgent', urgentAnswer, { signal }),
    select: (answer) => answer.items,
    enabled: count !== undefined && count > 0,
    placeholderData: keepPreviousData,
  })

/** Surveys to filter by, the newest first. */
export const useSurveys = (version: number | undefined) =>
  useQuery({
    queryKey: ['surveys', version],
    queryFn: ({ signal }) => fetchJson('/api/v1/surveys', surveyList, { signal }),
    select: (list) => list.items,
    placeholderData: keepPreviousData,
    enabled: version !== undefined,
  })
