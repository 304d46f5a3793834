import type { CaseError, CaseErrorCode } from '@/lib/cases/problem'
import { problem } from './problem'

const STATUS: Record<CaseErrorCode, number> = {
  'not-found': 404,
  'not-allowed': 403,
  invalid: 422,
  'too-large': 413,
  'not-whole': 400,
  empty: 422,
  'wrong-state': 409,
  'in-use': 409,
  'nothing-to-take-back': 409,
  'no-such-candidate': 422,
  'nothing-in-reach': 422,
}

/** What a use case refused, as HTTP says it. */
export const caseProblem = ({ code, fileCode, message, remedy }: CaseError): Response => problem(STATUS[code], { code: fileCode ?? code, detail: message, remedy })
