'use client'
import { useMemo } from 'react'
import { parseAsArrayOf, parseAsFloat, parseAsIsoDateTime, parseAsString, parseAsStringLiteral, throttle, useQueryStates } from 'nuqs'
import { SUNS } from '@/components/calculator/address'

export const FLIGHT_LOADS = ['last', 'rating'] as const

/** A usual day, and a usual uncooled camera: pixels of 17 µm behind 25 mm see 0.68 mrad each. */
const PARAMS = {
  /** Ids as this page writes them, or names as people do. */
  circuit: parseAsArrayOf(parseAsString),
  air: parseAsFloat.withDefault(15),
  wind: parseAsFloat.withDefault(2),
  sky: parseAsStringLiteral(SUNS).withDefault('diffuse'),
  at: parseAsIsoDateTime,
  load: parseAsStringLiteral(FLIGHT_LOADS).withDefault('last'),
  share: parseAsFloat.withDefault(100),
  netd: parseAsFloat.withDefault(0.05),
  ifov: parseAsFloat.withDefault(0.68),
  dist: parseAsFloat,
}

type Asked = ReturnType<typeof useFlight>['asked']
/** What the forecast, the load and the camera are; which circuits, `circuitsAsked` says. */
export type FlightInputs = Omit<Asked, 'circuit'>
export type PutFlight = ReturnType<typeof useFlight>['put']

export function useFlight() {
  const [asked, setInputs] = useQueryStates(PARAMS, { history: 'replace', limitUrlUpdates: throttle(300), scroll: false })
  return useMemo(() => ({
    asked,
    put: ({ circuit, ...part }: Partial<{ [K in keyof typeof asked]: K extends 'circuit' ? number[] | null : (typeof asked)[K] | null }>) =>
      void setInputs(circuit === undefined ? part : { ...part, circuit: circuit?.map(String) ?? null }),
  }), [asked, setInputs])
}
