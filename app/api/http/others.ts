import { problem } from './problem'

const METHODS = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'] as const
type Method = (typeof METHODS)[number]
type Answer = (request: Request) => Response

/**
 * The methods that an address does not have: 405 with those it has, which OPTIONS tells too. Every route exports them beside its
 * own: `export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')`.
 */
export function others<Own extends Method>(...own: Own[]): Record<Exclude<Method, Own> | 'OPTIONS', Answer> {
  const allowed = [...own, ...own.some((method) => method === 'GET') ? ['HEAD'] : [], 'OPTIONS'].join(', ')
  const refuse: Answer = (request) => problem(405, {
    code: 'method-not-allowed',
    detail: `${request.method} is not answered at ${new URL(request.url).pathname}.`,
    remedy: `Use ${allowed}; /api/openapi.json says what each does.`,
  }, { Allow: allowed })
  const answers = METHODS.filter((method) => !own.some((mine) => mine === method)).map((method) => [method, refuse] as const)
  const options: Answer = () => new Response(null, { status: 204, headers: { Allow: allowed } })
  return Object.fromEntries([...answers, ['OPTIONS', options]]) as Record<Exclude<Method, Own> | 'OPTIONS', Answer>
}
