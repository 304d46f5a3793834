import { OpenApiGeneratorV31, OpenAPIRegistry, type ResponseConfig, type RouteConfig } from '@asteasolutions/zod-to-openapi'
import { z } from 'zod'
import { problem } from '@/lib/contract/contract'
import { ADDRESSES, type Address } from './addresses'

type Paths = ReturnType<OpenApiGeneratorV31['generateDocument']>['paths']
type Parameters = NonNullable<NonNullable<Paths>[string]['get']>['parameters']

const json = (schema: z.ZodType) => ({ 'application/json': { schema } })

function content({ answer }: Address): ResponseConfig['content'] {
  return typeof answer === 'string' ? { [answer]: { schema: { type: 'string', format: 'binary' } } } : json(answer)
}

function request({ path, query, body, form }: Address): RouteConfig['request'] {
  const names = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name ?? '')
  return {
    ...names.length > 0 && { params: z.object(Object.fromEntries(names.map((name) => [name, z.string()]))) },
    ...query && { query },
    ...body && { body: { required: true, content: json(body) } },
    ...form && { body: { required: true, content: { 'multipart/form-data': { schema: formSchema(form) } } } },
  }
}

const formSchema = (form: z.ZodObject) => form.extend({ file: z.string().describe('The file itself') })

/** The OpenAPI 3.1 document, made from the schemas that the handlers and the pages use. */
export function openApiDocument() {
  const registry = new OpenAPIRegistry()
  for (const address of ADDRESSES) {
    registry.registerPath({
      method: address.method,
      path: address.path,
      summary: address.summary,
      request: request(address),
      responses: {
        [address.status ?? 200]: { description: address.summary, content: content(address) },
        default: { description: 'A problem (RFC 9457)', content: { 'application/problem+json': { schema: problem } } },
      },
    })
  }
  const document = new OpenApiGeneratorV31(registry.definitions).generateDocument({
    openapi: '3.1.0',
    info: {
      title: 'Spanledger',
      version: '1',
      description: 'SI units in every numeric name, server-issued ids, lists by cursor. '
        + 'A program that changes something sends Authorization: Bearer with a token.',
    },
  })
  for (const { method, path } of ADDRESSES) writeListsWithCommas(document.paths?.[path]?.[method]?.parameters)
  return document
}

// `class=urgent,critical`: OpenAPI would otherwise have a list as one parameter per item.
function writeListsWithCommas(parameters: Parameters): void {
  for (const parameter of parameters ?? []) {
    const schema = 'schema' in parameter ? parameter.schema : undefined
    if (schema && 'type' in schema && schema.type === 'array') Object.assign(parameter, { explode: false })
  }
}
