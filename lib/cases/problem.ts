import type { FileRefusal } from '@/lib/intake/types'
import { err, type Result } from '@/lib/result/result'

/** Why a use case came to nothing: an expected outcome that somebody can act on. */
export type CaseErrorCode =
  | 'not-found' | 'not-allowed' | 'invalid' | 'too-large' | 'not-whole' | 'empty' | 'wrong-state' | 'in-use' | 'nothing-to-take-back'
  | 'no-such-candidate' | 'nothing-in-reach'

export interface CaseError {
  code: CaseErrorCode
  /** The name of what is wrong with a file, where a file was refused: 'not-text', 'truncated', 'too-many-columns'. */
  fileCode?: string
  /** What is wrong, in a sentence. */
  message: string
  /** What to do about it, in a sentence. */
  remedy: string
}

export const refuse = (code: CaseErrorCode, message: string, remedy: string): Result<never, CaseError> => err({ code, message, remedy })

/** A file that cannot be read at all, by the name of what is wrong with it. */
export const refuseFile = ({ code, message, remedy }: FileRefusal): Result<never, CaseError> =>
  err({ code: 'invalid', fileCode: code, message, remedy })

/** Where the numbers of each thing are listed. */
const LISTS: Readonly<Record<string, string>> = {
  circuit: 'the circuits (/api/v1/circuits)', splice: 'the splices (/api/v1/splices)', 'splice in service': 'the splices in service (/api/v1/splices)',
  import: 'the imports (/api/v1/imports)', reading: 'the readings of its import (/api/v1/readings?import=NUMBER) or the review (/api/v1/review)',
  'entry of the log': 'the calls (/api/v1/calls)', 'urgent reading': 'what waits for the control room (/api/v1/urgent)', limit: 'the limits (/api/v1/limits)',
}

/** A number that nothing has, or nothing that the caller may see. */
export const noSuchThing = (what: string): CaseError => ({
  code: 'not-found', message: `There is no ${what} with this number.`,
  remedy: LISTS[what] === undefined ? 'Take the number from the answer that named it; what is done and gone has none.'
    : `Look it up among ${LISTS[what]}; what is not listed there is gone.`,
})

export const noSuch = (what: string): Result<never, CaseError> => err(noSuchThing(what))

export const outOfScope = (): Result<never, CaseError> =>
  refuse('not-allowed', 'This touches circuits that you may not change.', 'Ask somebody who looks after the whole network.')
