'use client'
import { keepPreviousData, useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { fetchJson } from '@/components/ui/fetch-json'
import { coverageSummary, neverPage, spanSurveys, surveyFilterToQuery, type STRETCH_SORTS, type SurveyFilter } from '@/lib/contract/survey-layer'

export const useCoverage = (filter: SurveyFilter, version: number | undefined) => {
  const query = surveyFilterToQuery(filter)
  return useQuery({
    queryKey: ['coverage', query, version],
    queryFn: ({ signal }) => fetchJson(`/api/v1/coverage?${query}`, coverageSummary, { signal }),
    placeholderData: keepPreviousData,
    enabled: version !== undefined,
  })
}

export const useSpanSurveys = (id: number | null, version: number | undefined) =>
  useQuery({
    queryKey: ['span-surveys', id, version],
    queryFn: ({ signal }) => fetchJson(`/api/v1/spans/${id}/surveys`, spanSurveys, { signal }),
    enabled: id !== null && version !== undefined,
    staleTime: Infinity,
  })

/** Stretches that nobody ever surveyed, page by page as they are asked for. */
export function useNever({ years: _, ...filter }: SurveyFilter, sort: (typeof STRETCH_SORTS)[number], version: number | undefined) {
  const query = [surveyFilterToQuery(filter), `sort=${sort}`].filter(Boolean).join('&')
  return useInfiniteQuery({
    queryKey: ['never-surveyed', query, version],
    queryFn: ({ pageParam, signal }) =>
      fetchJson(`/api/v1/coverage/never?${query}${pageParam ? `&cursor=${encodeURIComponent(pageParam)}` : ''}`, neverPage, { signal }),
    initialPageParam: '',
    getNextPageParam: (last) => last.next_cursor ?? undefined,
    placeholderData: keepPreviousData,
    enabled: version !== undefined,
  })
}
