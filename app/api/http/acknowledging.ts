import { acknowledgeUrgent, takeBackTold, type Which } from '@/lib/cases/acknowledge-urgent'
import { toldBody } from '@/lib/contract/urgent'
import type { Access } from './access'
import { caseProblem } from './case-problem'
import { parseBody } from './parse'
import { json } from './respond'

type Work = (request: Request, asked: Access, id: number) => Promise<Response>

/** The control room was told. `which`: of a notice, or of whatever waits of a reading. */
export const telling = (which: (id: number) => Which): Work => async (request, { scope, actor }, id) => {
  const told = await parseBody(request, toldBody)
  if (!told.ok) return told.error
  const acknowledged = await acknowledgeUrgent(scope, which(id), actor, told.value)
  return acknowledged.ok ? json(acknowledged.value) : caseProblem(acknowledged.error)
}

/** It was not, or not of this: within a minute of noting it. */
export const takingBack = (which: (id: number) => Which): Work => async (_request, { scope, actor }, id) => {
  const taken = await takeBackTold(scope, which(id), actor)
  return taken.ok ? json(taken.value) : caseProblem(taken.error)
}
