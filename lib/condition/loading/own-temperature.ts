import { err, ok, type Result } from '@/lib/result/result'
import type { Weather } from '../heat/weather'
import type { HeatedJoint, NotDrawn } from './line-joint'
import { jointTemperatures, type JointTemperatures } from './line-temperatures'

const WHY: Record<NotDrawn, string> = {
  'shield-wire': 'a shield-wire splice carries no load current',
  'automatic': 'an automatic splice grips by tension and is not judged by a ratio. Ask the rating engineer',
  'no-barrel': 'no heat balance is drawn for this kind of fitting. Ask the rating engineer',
  'no-conductor': 'the conductor of the section is not on record. Ask line engineering for its code word',
  'conductor-not-in-table': 'the conductor of the section is not in the table. Ask the rating engineer',
  'ratio-out-of-range': 'its ratio lies outside what the heat balance covers. Ask the rating engineer',
}

const NO_RATIO = 'no usable ratio has been read. Until it is, ask the rating engineer'

/**
 * How hot a splice is by itself at a load in a weather, or why that cannot be reckoned and whom to ask, as the end of a sentence.
 * @param joint null where no ratio of it was read
 * @param lineA per phase; null where no such load is known
 * @param noLoad what stands where it is null
 */
export function ownTemperature(
  joint: HeatedJoint | NotDrawn | null, lineA: number | null, noLoad: string, weather: Weather,
): Result<JointTemperatures & { lineA: number }, string> {
  if (typeof joint === 'string') return err(WHY[joint])
  if (joint === null) return err(NO_RATIO)
  if (lineA === null) return err(noLoad)
  const found = jointTemperatures([joint], lineA, weather)
  const [own] = found.ok ? found.value : []
  return own ? ok({ lineA, ...own }) : err('load or weather lie outside what the heat balance covers. Ask the rating engineer')
}
