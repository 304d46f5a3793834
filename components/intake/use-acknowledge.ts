'use client'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { fetchJson } from '@/components/ui/fetch-json'
import { urgentReading } from '@/lib/contract/urgent'

/** What shows whether the control room was told. */
const SHOWN_BY = ['urgent', 'state', 'splice', 'review', 'import']

/** Notes that the control room was told of a notice, or of whatever waits of a reading; every screen that shows it is asked again. */
export function useAcknowledge() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (of: { noticeId: number } | { readingId: number }) =>
      fetchJson(`/api/v1/${'noticeId' in of ? `urgent/${of.noticeId}` : `readings/${of.readingId}`}/acknowledge`, urgentReading, { method: 'POST' }),
    onSettled: () => client.invalidateQueries({ predicate: ({ queryKey: [key] }) => typeof key === 'string' && SHOWN_BY.includes(key) }),
  })
}
