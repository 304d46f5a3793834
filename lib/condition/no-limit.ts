import { rankOf } from './classify'
import { conductorByCode } from './conductor-table'
import { interfacesOf, whyNotByRatio } from './interfaces'
import { restsOnPictures } from './rests-on-pictures'
import type { Assessment, SpliceFacts } from './types'
import { anyAtLeast } from './within-crimp'

/** Why neither current nor temperature is drawn from a ratio that was read, after 'Not known:' or 'Cannot be computed:'. */
export const RATIO_SAYS_NOTHING: Record<NonNullable<Assessment['raisedBy']>, string> = {
  heat: 'infrared shows it hotter than its ratio makes it, so that nothing is drawn from that ratio. Measure the resistance of every interface again',
  strands: 'broken strands were seen, of which its ratio says nothing',
}

/** The mean of a splice is no word on its worse side. */
export const INFRARED_SEES_MEAN = 'Not known: infrared sees the mean of a splice and not its worse side. Measure the resistance of every interface.'

/** What lies over a ratio has no upper end. */
export const RATIO_AT_LEAST = 'Not known: part of an interface lay outside the reading, so that its ratio is only the least it has. Set the electrode past the last crimp '
  + 'mark and read again; until then, ask the rating engineer.'

/**
 * Why no current limit could be drawn for a splice, and whom to ask, in a sentence. Null where there is a limit, and for a splice that is
 * electrically sound, which limits nothing.
 */
export function whyNoLimit(assessment: Pick<Assessment, 'class' | 'limit' | 'fusion' | 'raisedBy' | 'sides'>, facts: Pick<SpliceFacts, 'kind' | 'conductorCode' | 'fittingType'>): string | null {
  const { class: condition, limit, raisedBy, sides } = assessment
  if (limit !== undefined || (condition !== 'unknown' && rankOf(condition) < rankOf('watch'))) return null
  if (interfacesOf(facts.kind).barrelSides.length === 0) {
    return 'Not known: no heat balance is drawn for this kind of fitting. Ask the rating engineer.'
  }
  if (whyNotByRatio({ ...facts, subconductors: 1 }) === 'automatic') return 'Not known: an automatic splice grips by tension and is not judged by a ratio. Ask the rating engineer.'
  if (facts.conductorCode === undefined) return 'Not known: the conductor of the section is not on record. Ask line engineering for its code word.'
  if (conductorByCode(facts.conductorCode) === null) {
    return `Not known: conductor ${facts.conductorCode} is not in the table. Ask the rating engineer.`
  }
  if (!raisedBy && anyAtLeast(sides)) return RATIO_AT_LEAST
  if (condition === 'unknown' || (raisedBy && sides.length === 0)) return 'Not known: no usable ratio has been read. Until it is, ask the rating engineer.'
  if (raisedBy) return `Not known: ${RATIO_SAYS_NOTHING[raisedBy]}. Ask the rating engineer.`
  if (restsOnPictures(assessment)) return INFRARED_SEES_MEAN
  return 'Not known: the heat balance has no answer within its range. Ask the rating engineer.'
}
