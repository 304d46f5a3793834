'use client'
import { useInfiniteQuery, useMutation, useQuery, useQueryClient, type QueryClient } from '@tanstack/react-query'
import { fetchJson } from '@/components/ui/fetch-json'
import { undoneImport, type UndoneImport } from '@/lib/contract/api'
import { importStatus, page, rowIssue } from '@/lib/contract/contract'
import { importPage } from '@/lib/contract/intake'
import { isUnderWay } from './words'

const issuePage = page(rowIssue)

/** Everything that an import or its undoing may have changed on other screens. */
export function refreshAfterImport(client: QueryClient): void {
  void client.invalidateQueries()
}

/** Past imports or dry runs, newest first; asked again every second while one is under way. */
export const useImports = (dryRuns: boolean) =>
  useInfiniteQuery({
    queryKey: ['imports', dryRuns],
    initialPageParam: '',
    queryFn: ({ pageParam, signal }) =>
      fetchJson(`/api/v1/imports?dry_run=${dryRuns ? 1 : 0}${pageParam === '' ? '' : `&cursor=${encodeURIComponent(pageParam)}`}`, importPage, {
        signal,
      }),
    getNextPageParam: (last) => last.next_cursor ?? undefined,
    refetchInterval: (q) => (q.state.data?.pages[0]?.items.some((i) => isUnderWay(i.state)) ? 1000 : 30_000),
  })

/** One import; asked again twice a second while it is under way. */
export const useImport = (id: number, enabled = true) =>
  useQuery({
    queryKey: ['import', id],
    enabled,
    queryFn: ({ signal }) => fetchJson(`/api/v1/imports/${id}`, importStatus, { signal }),
    // What the server does not have is not asked for again; what is under way is, whatever fails in between.
    refetchInterval: (q) => (q.state.data === undefined ? (q.state.error ? false : 500) : isUnderWay(q.state.data.state) ? 500 : false),
  })

/** All issues of an import beyond those that its report carries. */
export const useIssues = (id: number, enabled: boolean) =>
  useInfiniteQuery({
    queryKey: ['import', id, 'issues'],
    enabled,
    initialPageParam: '',
    queryFn: ({ pageParam, signal }) =>
      fetchJson(`/api/v1/imports/${id}/issues${pageParam === '' ? '' : `?cursor=${encodeURIComponent(pageParam)}`}`, issuePage, {
        signal,
      }),
    getNextPageParam: (last) => last.next_cursor ?? undefined,
  })

/** Withdraws an import as one act, or calls off one that is not done yet. */
export function useEndImport(onEnded: (ended: UndoneImport) => void) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (id: number) => fetchJson(`/api/v1/imports/${id}`, undoneImport, { method: 'DELETE' }),
    onSuccess: (ended) => {
      refreshAfterImport(client)
      onEnded(ended)
    },
  })
}
