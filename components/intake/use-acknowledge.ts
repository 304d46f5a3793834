'use client'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { fetchJson, sending } from '@/components/ui/fetch-json'
import { urgentReading, type ToldBody } from '@/lib/contract/urgent'

/** What shows whether the control room was told. */
const SHOWN_BY = ['urgent', 'state', 'splice', 'review', 'import']

export type Of = { noticeId: number } | { readingId: number }

const addressOf = (of: Of) => `/api/v1/${'noticeId' in of ? `urgent/${of.noticeId}` : `readings/${of.readingId}`}/acknowledge`

/** Notes that the control room was told of a notice, or of whatever waits of a reading, or takes that back; every screen that shows it is asked again. */
export function useAcknowledge() {
  const client = useQueryClient()
  const onSettled = () => client.invalidateQueries({ predicate: ({ queryKey: [key] }) => typeof key === 'string' && SHOWN_BY.includes(key) })
  const tell = useMutation({
    mutationFn: ({ of, call }: { of: Of; call: ToldBody }) => fetchJson(addressOf(of), urgentReading, sending('POST', call)),
    onSettled,
  })
  const takeBack = useMutation({ mutationFn: (of: Of) => fetchJson(addressOf(of), urgentReading, { method: 'DELETE' }), onSettled })
  return { tell, takeBack }
}
