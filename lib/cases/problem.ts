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

export const noSuch = (what: string): Result<never, CaseError> =>
  refuse('not-found', `There is no ${what} with this number.`, 'Open it from a list again; it may have been undone.')

export const outOfScope = (): Result<never, CaseError> =>
  refuse('not-allowed', 'This touches circuits that you may not change.', 'Ask somebody who looks after the whole network.')
