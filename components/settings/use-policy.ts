'use client'
import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { fetchJson, sending } from '@/components/ui/fetch-json'
import { jobStatus, policyHistory, policyPreview, policySaved, policyVersion } from '@/lib/contract/settings'

export const usePolicy = () =>
  useQuery({ queryKey: ['policy'], queryFn: ({ signal }) => fetchJson('/api/v1/policy', policyVersion, { signal }) })

export const usePolicyHistory = () =>
  useQuery({ queryKey: ['policy', 'history'], queryFn: ({ signal }) => fetchJson('/api/v1/policy/history', policyHistory, { signal }) })

function useSettled<T>(value: T, ms: number): T {
  const [settled, setSettled] = useState(value)
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), ms)
    return () => clearTimeout(timer)
  }, [value, ms])
  return settled
}

/** What the changed policy would reclassify; asked half a second after the last key stroke. Null: nothing to ask. */
export function usePolicyPreview(values: unknown) {
  const text = useSettled(values === null ? null : JSON.stringify(values), 500)
  return useQuery({
    queryKey: ['policy', 'preview', text],
    enabled: text !== null,
    placeholderData: keepPreviousData,
    retry: false,
    queryFn: ({ signal }) =>
      fetchJson('/api/v1/policy/preview', policyPreview, { ...sending('POST', { values: JSON.parse(text ?? '{}') as unknown }), signal }),
  })
}

export function useSavePolicy(onSaved: (jobId: number, version: number) => void) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: { values: unknown; procedure_no: string; note: string; set_by: string }) =>
      fetchJson('/api/v1/policy', policySaved, sending('PUT', body)),
    onSuccess: (saved) => {
      void client.invalidateQueries({ queryKey: ['policy'] })
      onSaved(saved.job_id, saved.version)
    },
  })
}

/** Background work, asked twice a second until it ends; then the rest of the product is asked again. */
export function useJob(id: number | null) {
  const client = useQueryClient()
  const job = useQuery({
    queryKey: ['job', id],
    enabled: id !== null,
    queryFn: ({ signal }) => fetchJson(`/api/v1/jobs/${id}`, jobStatus, { signal }),
    refetchInterval: (q) => (q.state.data?.state === 'done' || q.state.data?.state === 'failed' ? false : 500),
  })
  const ended = job.data?.state === 'done'
  useEffect(() => {
    if (ended) void client.invalidateQueries({ predicate: (q) => q.queryKey[0] !== 'job' })
  }, [ended, client])
  return job
}
