'use client'
import { useCallback } from 'react'
import { parseAsArrayOf, parseAsFloat, parseAsInteger, parseAsString, parseAsStringLiteral, throttle, useQueryStates } from 'nuqs'
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
  circuit: parseAsArrayOf(parseAsInteger),
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

export type LoadingInputs = ReturnType<typeof useLoading>['inputs']
export type PutLoading = ReturnType<typeof useLoading>['put']

export function useLoading() {
  const [inputs, setInputs] = useQueryStates(PARAMS, { history: 'replace', limitUrlUpdates: throttle(300), scroll: false })
  // The same function throughout, so that a slider whose value stands is not drawn again with every move of another.
  const put = useCallback((part: Partial<{ [K in keyof typeof inputs]: (typeof inputs)[K] | null }>) => void setInputs(part), [setInputs])
  return { inputs, put }
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
