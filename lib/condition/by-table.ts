import type { Reason } from './types'

/** The conductor of the table that a ratio stands against, where no conductor reading could be used. */
export interface ByTable {
  /** Code word on record. */
  conductor: string
  /** By the table, over the electrode span of the sides, µΩ. */
  uohm: number
  /** What was written for the conductor and cannot be a reading; absent where nothing was. */
  typed?: string
}

/** What the reasons of a reading or an assessment say of the table; undefined where the conductor was measured. */
export function byTableIn(reasons: readonly Reason[]): ByTable | undefined {
  const values = reasons.find(({ code }) => code === 'conductor-from-table')?.values
  if (!values) return undefined
  const { typed } = values
  return { conductor: String(values.conductor), uohm: Number(values.uohm), ...(typeof typed === 'string' && { typed }) }
}
