'use client'
import { useMemo } from 'react'
import { parseAsArrayOf, parseAsFloat, parseAsInteger, parseAsIsoDateTime, parseAsStringLiteral, throttle, useQueryStates } from 'nuqs'
import { SUNS } from '@/components/calculator/address'

export const FLIGHT_LOADS = ['last', 'rating'] as const

/** A usual day, and a usual uncooled camera: pixels of 17 µm behind 25 mm see 0.68 mrad each. */
const PARAMS = {
  circuit: parseAsArrayOf(parseAsInteger),
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

export type FlightInputs = ReturnType<typeof useFlight>['inputs']
export type PutFlight = ReturnType<typeof useFlight>['put']

export function useFlight() {
  const [inputs, setInputs] = useQueryStates(PARAMS, { history: 'replace', limitUrlUpdates: throttle(300), scroll: false })
  return useMemo(() => ({
    inputs,
    put: (part: Partial<{ [K in keyof typeof inputs]: (typeof inputs)[K] | null }>) => void setInputs(part),
  }), [inputs, setInputs])
}
