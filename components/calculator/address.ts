'use client'
import { useMemo } from 'react'
import { parseAsFloat, parseAsString, parseAsStringLiteral, throttle, useQueryStates } from 'nuqs'
import { SPLICE_KINDS } from '@/lib/condition/types'
import { NUMBER_KEYS, type NumberKey } from './numbers'

/** What may be chosen: the kinds on record, and an automatic splice, which readings know by the text of their fitting. */
export const FITTINGS = [...SPLICE_KINDS, 'automatic'] as const

export const MEANS = ['resistance', 'infrared'] as const
export const TEST_CURRENTS = ['live-ac', 'dead-dc'] as const
export const SUNS = ['none', 'diffuse', 'direct'] as const
export const CAMERA_BANDS = ['lw', 'mw'] as const

/** Everything that was put in, in SI with µΩ, °C and mm; null where nothing was. */
export type Inputs = Record<NumberKey, number | null> & {
  by: (typeof MEANS)[number]
  kind: (typeof FITTINGS)[number]
  conductor: string | null
  /** The day it was read, '2026-08-14'. */
  on: string | null
  test: (typeof TEST_CURRENTS)[number] | null
  sun: (typeof SUNS)[number] | null
  band: (typeof CAMERA_BANDS)[number]
}

const numbers = Object.fromEntries(NUMBER_KEYS.map((key) => [key, parseAsFloat])) as Record<NumberKey, typeof parseAsFloat>

/** The whole case stands in the address, so that it can be sent to somebody; nothing of it is kept anywhere else. */
export const CALCULATOR_PARAMS = {
  ...numbers,
  by: parseAsStringLiteral(MEANS).withDefault('resistance'),
  kind: parseAsStringLiteral(FITTINGS).withDefault('full-tension splice'),
  conductor: parseAsString,
  on: parseAsString,
  test: parseAsStringLiteral(TEST_CURRENTS),
  sun: parseAsStringLiteral(SUNS),
  band: parseAsStringLiteral(CAMERA_BANDS).withDefault('lw'),
}

const NOTHING = Object.fromEntries(Object.keys(CALCULATOR_PARAMS).map((key) => [key, null])) as Record<keyof typeof CALCULATOR_PARAMS, null>

/** Bobolink over a foot: sides of 10 and 53 µΩ on a conductor of 12 µΩ; common practice, no published source. */
const EXAMPLE: Partial<Inputs> = { by: 'resistance', conductor: 'Bobolink', a: 10, b: 53, c: 12, span: 0.3048 }

/** Drake by night at 20 °C and 900 A, 33 K over its own conductor, near enough that the barrel fills the pixels; figures of our own, no published source. */
const PICTURE: Partial<Inputs> = { by: 'infrared', conductor: 'Drake', ts: 95, tc: 62, air: 20, i: 900, emis: 0.8, sun: 'none', dist: 20, ifov: 0.34 }

/** An act of its own comes into the history as it is done: typing waits, and Back pressed in that wait would lead past it. */
const A_STEP = { history: 'push', limitUrlUpdates: throttle(0) } as const

export interface Calculator {
  inputs: Inputs
  put(part: Partial<Inputs>): void
  /** Each a step of its own, so that Back undoes it. */
  clear(): void
  example(): void
}

export function useCalculator(): Calculator {
  const [inputs, setInputs] = useQueryStates(CALCULATOR_PARAMS, { history: 'replace', limitUrlUpdates: throttle(300), scroll: false })
  return useMemo(() => ({
    inputs,
    put: (part) => void setInputs(part),
    clear: () => void setInputs({ ...NOTHING, by: inputs.by }, A_STEP),
    example: () => void setInputs({ ...NOTHING, ...inputs.by === 'infrared' ? PICTURE : EXAMPLE }, A_STEP),
  }), [inputs, setInputs])
}
