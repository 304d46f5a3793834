'use client'
import { useCallback } from 'react'
import { parseAsArrayOf, parseAsFloat, parseAsString, parseAsStringLiteral, throttle, useQueryStates } from 'nuqs'
import type { Weather } from '@/lib/condition/heat/weather'
import type { Policy } from '@/lib/condition/policy'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'

export const LOADS = ['last', 'peak', 'contingency', 'rating', 'emergency', 'own'] as const
export type LoadKind = (typeof LOADS)[number]
/** What a figure that somebody typed is. */
export const FIGURES = ['peak', 'contingency', 'other'] as const
export type Figure = (typeof FIGURES)[number]

/** The whole question stands in the address, so that it can be sent to somebody; an absent weather is that of ratings, and an absent load the rating: a light load would open with an all-clear. */
const PARAMS = {
  /** Ids as this page writes them, or names as people do. */
  circuit: parseAsArrayOf(parseAsString),
  bbox: parseAsArrayOf(parseAsFloat),
  air: parseAsFloat,
  wind: parseAsFloat,
  angle: parseAsFloat,
  sun: parseAsFloat,
  load: parseAsStringLiteral(LOADS).withDefault('rating'),
  a: parseAsFloat,
  figure: parseAsStringLiteral(FIGURES).withDefault('peak'),
  source: parseAsString,
  share: parseAsFloat,
}

type Asked = ReturnType<typeof useLoading>['asked']
export type LoadingInputs = Omit<Asked, 'circuit'> & { circuit: number[] | null }
export type PutLoading = ReturnType<typeof useLoading>['put']

/** Circuits of an address by id, else by name; what is neither is said, never dropped. */
export function circuitsAsked(asked: readonly string[] | null, circuits: readonly { id: number; name: string }[]): { ids: number[]; unknown: string[] } {
  const ids = new Set<number>()
  const unknown: string[] = []
  for (const one of asked ?? []) {
    const text = one.trim()
    const found = circuits.find(({ id }) => String(id) === text) ?? circuits.find(({ name }) => name.toLowerCase() === text.toLowerCase())
    if (found) ids.add(found.id)
    else if (text !== '') unknown.push(text)
  }
  return { ids: [...ids], unknown }
}

export function useLoading() {
  const [asked, setInputs] = useQueryStates(PARAMS, { history: 'replace', limitUrlUpdates: throttle(300), scroll: false })
  // The same function throughout, so that a slider whose value stands is not drawn again with every move of another.
  const put = useCallback(({ circuit, ...part }: Partial<{ [K in keyof typeof asked]: K extends 'circuit' ? number[] | null : (typeof asked)[K] | null }>) =>
    void setInputs(circuit === undefined ? part : { ...part, circuit: circuit?.map(String) ?? null }), [setInputs])
  return { asked, put }
}

const WEATHER = { air: 'ambientC', wind: 'windMS', angle: 'windAngleDeg', sun: 'sunWPerM2' } as const
export type WeatherKey = keyof typeof WEATHER

/** What the weather is, figure by figure: as put in, else that of ratings. */
export function weatherOf(inputs: Pick<LoadingInputs, WeatherKey>, policy: Policy): Weather {
  const rating = ratingWeatherOf(policy)
  return {
    ...rating, ambientC: inputs.air ?? rating.ambientC, windMS: inputs.wind ?? rating.windMS, windAngleDeg: inputs.angle ?? rating.windAngleDeg,
    sunWPerM2: inputs.sun ?? rating.sunWPerM2,
  }
}

/** What a figure of the weather is in ratings. */
export const ratedFigure = (key: WeatherKey, policy: Policy): number => ratingWeatherOf(policy)[WEATHER[key]]

/** A box that is one: west, south, east, north. */
export function boxOf(bbox: readonly number[] | null): [number, number, number, number] | null {
  const [west, south, east, north] = bbox ?? []
  return west === undefined || south === undefined || east === undefined || north === undefined ? null : [west, south, east, north]
}
