'use client'
import { useQuery } from '@tanstack/react-query'
import { fetchJson } from '@/components/ui/fetch-json'
import { settings, type SettingsJson } from '@/lib/contract/settings'

export const SETTINGS_KEY = ['settings']

/** The utility's settings, as everybody sees them. */
export const useSettings = () =>
  useQuery({ queryKey: SETTINGS_KEY, queryFn: ({ signal }) => fetchJson('/api/v1/settings', settings, { signal }), staleTime: 60_000 })

/** The basemap to draw on: the embedded one until settings say otherwise. */
export const useBasemap = (): SettingsJson['basemap'] => useSettings().data?.basemap ?? { kind: 'embedded' }
