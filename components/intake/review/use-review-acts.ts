'use client'
import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { fetchJson, sending } from '@/components/ui/fetch-json'
import { reviewAct, reviewActList, reviewActPreview, type ReviewActBody, type ReviewActKind, type ReviewChoice } from '@/lib/contract/review-acts'

const ADDRESS = '/api/v1/review/acts'

/** What the act would do now; asked while the dialog is open. */
export const useActPreview = (action: ReviewActKind, choice: ReviewChoice, enabled: boolean) =>
  useQuery({
    queryKey: ['review', 'acts', 'preview', action, choice],
    enabled,
    placeholderData: keepPreviousData,
    retry: false,
    queryFn: ({ signal }) => fetchJson(`${ADDRESS}/preview`, reviewActPreview, { ...sending('POST', { action, choice }), signal }),
  })

export const useReviewActs = (enabled: boolean) =>
  useQuery({ queryKey: ['review', 'acts', 'list'], enabled, queryFn: ({ signal }) => fetchJson(ADDRESS, reviewActList, { signal }) })

/** Begins an act or takes one back. Both run in the background: `onBegun` is told whose work to follow. */
export function useActing(onBegun: (jobId: number | null) => void) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (what: { begin: ReviewActBody } | { undo: number }) =>
      'begin' in what ? fetchJson(ADDRESS, reviewAct, sending('POST', what.begin)) : fetchJson(`${ADDRESS}/${what.undo}`, reviewAct, { method: 'DELETE' }),
    onSuccess: (act) => onBegun(act.job_id),
    onError: () => void client.invalidateQueries({ queryKey: ['review', 'acts'] }),
  })
}
