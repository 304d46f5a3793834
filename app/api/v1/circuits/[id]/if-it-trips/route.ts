import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { noteIfItTrips } from '@/lib/cases/note-if-it-trips'
import { ifItTripsBody } from '@/lib/contract/if-it-trips'

export const dynamic = 'force-dynamic'

/** Who loses supply when the circuit trips, what isolates it and who is called. */
export const PUT = changingOne('circuit', async (request, { scope, actor }, id) => {
  const said = await parseBody(request, ifItTripsBody)
  if (!said.ok) return said.error
  const noted = await noteIfItTrips(scope, id, said.value, actor)
  return noted.ok ? json(noted.value) : caseProblem(noted.error)
})

export const { GET, POST, PATCH, DELETE, OPTIONS } = others('PUT')
