'use client'
import { keepPreviousData, useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { fetchJson } from '@/components/ui/fetch-json'
import { changes, type ChangeKind, type ChangePart, type PartOf } from '@/lib/contract/changes'

const PAGE = 50
const MORE = 500

export interface ChangesAsked {
  /** ISO 8601. */
  since: string
  circuitIds?: readonly number[]
}

const address = ({ since, circuitIds }: ChangesAsked, more: Record<string, string>): string => {
  const query = new URLSearchParams({ since, ...(circuitIds?.length ? { circuit: circuitIds.join(',') } : {}), ...more })
  return `/api/v1/changes?${query}`
}

/** The first of every kind; asked for again when anything in the store has changed. */
export const useChanges = (asked: ChangesAsked, version: number | undefined) =>
  useQuery({
    queryKey: ['changes', asked.since, asked.circuitIds, version],
    queryFn: ({ signal }) => fetchJson(address(asked, { limit: String(PAGE) }), changes, { signal }),
    enabled: version !== undefined,
    placeholderData: (before, query) => (query?.queryKey[1] === asked.since ? before : undefined),
  })

/** How many, without what: for the link that leads there. */
export const useChangeCounts = (asked: ChangesAsked, version: number | undefined) =>
  useQuery({
    queryKey: ['change-counts', asked.since, asked.circuitIds, version],
    queryFn: ({ signal }) => fetchJson(address(asked, { limit: '1', kind: 'class,reading' }), changes, { signal }),
    enabled: version !== undefined,
    placeholderData: keepPreviousData,
  })

/** What follows the first of one kind, once it is asked for. */
export function useMore<K extends ChangeKind>(asked: ChangesAsked, first: PartOf<K>, version: number | undefined) {
  const kind: ChangeKind = first.kind
  return useInfiniteQuery({
    queryKey: ['changes', asked.since, asked.circuitIds, version, kind, first.next_cursor],
    queryFn: async ({ pageParam, signal }): Promise<PartOf<K>> => {
      const answer = await fetchJson(address(asked, { limit: String(MORE), kind, cursor: pageParam ?? '' }), changes, { signal })
      return answer.parts.find((part: ChangePart) => part.kind === kind) as PartOf<K>
    },
    initialPageParam: first.next_cursor,
    getNextPageParam: (last) => last.next_cursor ?? undefined,
    enabled: false,
  })
}

/** A part of one kind; undefined while it is not there. */
export const partOf = <K extends ChangeKind>(parts: readonly ChangePart[] | undefined, kind: K): PartOf<K> | undefined =>
  parts?.find((part): part is PartOf<K> => part.kind === kind)
