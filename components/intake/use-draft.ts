'use client'
import { useState } from 'react'
import { keepPreviousData, useQuery } from '@tanstack/react-query'
import { RequestFailed, asSentences } from '@/components/ui/fetch-json'
import type { ImportPreview } from '@/lib/contract/intake'
import { askPreview, newDraft, refusalBeforeSending, withAlways, withColumn, withSetting, type Draft, type FileSetting } from './draft'
import type { Kind } from './words'

/** The server has read the request and says no: the same again changes nothing. */
const isRefusal = (error: Error): boolean => error instanceof RequestFailed && error.status >= 400 && error.status < 500

/** A file whose columns are known can be mapped by hand, whatever was said about the mapping so far. */
const hasColumns = (preview: ImportPreview): boolean => !preview.refusal || preview.columns.length > 0

/** The file on the table, what it would become, and what a person changes about it. */
export function useDraft() {
  const [draft, setDraft] = useState<Draft | null>(null)
  const refused = draft === null ? null : refusalBeforeSending(draft.file)
  const preview = useQuery({
    queryKey: ['preview', draft?.key, draft?.kind, draft?.mapping, draft?.fresh],
    enabled: draft !== null && refused === null,
    queryFn: ({ signal }) => {
      if (draft === null) throw new Error('There is no file to preview.')
      return askPreview(draft, signal)
    },
    // While a changed mapping is read again the rows stay; those of another file do not.
    placeholderData: (before, query) => (query?.queryKey[1] === draft?.key ? keepPreviousData(before) : undefined),
    staleTime: Infinity,
    retry: false,
  })
  const data = preview.data
  // What cannot be asked leaves the last answer on the table, so that it can be put right there.
  const [good, setGood] = useState<{ key: number; preview: ImportPreview } | null>(null)
  if (draft !== null && data !== undefined && hasColumns(data) && !preview.isPlaceholderData && good?.preview !== data) {
    setGood({ key: draft.key, preview: data })
  }
  const shown = data !== undefined && hasColumns(data) ? data : good !== null && good.key === draft?.key ? good.preview : undefined
  const change = (next: Partial<Draft>) => setDraft((d) => (d === null ? d : { ...d, ...next }))
  const mapping = draft?.mapping ?? shown?.mapping ?? null
  const problem = refused ?? preview.error
  return {
    draft,
    mapping,
    preview: shown,
    reading: preview.isFetching,
    refusal:
      problem === null
        ? data?.refusal && { title: data.refusal.message, remedy: data.refusal.remedy }
        : asSentences(problem),
    take: (file: File) => setDraft((d) => newDraft(file, (d?.key ?? 0) + 1)),
    clear: () => setDraft(null),
    setKind: (kind: Kind) => change({ kind, mapping: null }),
    forget: () => change({ mapping: null, fresh: true }),
    setSurvey: (survey: string) => change({ survey }),
    setColumn: (column: string, use: { field?: string | null; unit?: string | undefined }) => {
      if (mapping) change({ mapping: withColumn(mapping, column, use) })
    },
    setSetting: <Name extends keyof FileSetting>(name: Name, value: FileSetting[Name]) => {
      if (mapping) change({ mapping: withSetting(mapping, name, value) })
    },
    setAlways: (field: string, value: string | undefined) => {
      if (mapping) change({ mapping: withAlways(mapping, field, value) })
    },
    /** No file is wrong: the server did not answer, or failed. */
    canRetry: refused === null && preview.error !== null && !isRefusal(preview.error),
    retry: () => void preview.refetch(),
  }
}

export type DraftState = ReturnType<typeof useDraft>
