import { OpenApiGeneratorV31, OpenAPIRegistry, type ResponseConfig, type RouteConfig } from '@asteasolutions/zod-to-openapi'
import { z } from 'zod'
import { TITLES } from '@/app/api/http/problem'
import { ADDRESSES, type Address } from './addresses'
import { PARAMETERS } from './parameters'
import { ANSWERS, jsonSchemaOf, refTo, type AnswerName } from './schemas'

const BEARER = 'bearer'
const FILE_WORDS = 'The file itself, up to 100 MB.'
const DESCRIPTION = 'SI units in every numeric name, server-issued ids, lists by cursor. A program that changes something sends '
  + 'Authorization: Bearer with a token of its choice. A query parameter or a key of a body that is not listed is refused, a key of a reading aside, and so is a parameter given again where it is no list. '
  + 'Every refusal is a problem of RFC 9457 with code, detail and remedy.'

const isName = (answer: string): answer is AnswerName => answer in ANSWERS

function content({ answers }: Address): ResponseConfig['content'] {
  return Object.fromEntries(answers.map((answer) => (isName(answer)
    ? ['application/json', { schema: refTo(answer) }] : [answer, { schema: schemaOfMedia(answer) }])))
}

const schemaOfMedia = (media: string) => (
  media === 'application/json' ? { type: 'object' as const } : { type: 'string' as const, ...!media.startsWith('text/') && { format: 'binary' } })

const namesIn = (path: string): string[] => [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name ?? '')

const placeholder = (name: string) => (name === 'file' ? z.string() : z.int().min(name === 'id' ? 1 : 0)).meta({ param: { description: PARAMETERS[name] } })

function request({ path, query, body, bodySchema, form }: Address): RouteConfig['request'] {
  const names = namesIn(path)
  return {
    ...names.length > 0 && { params: z.object(Object.fromEntries(names.map((name) => [name, placeholder(name)]))) },
    ...query && { query },
    ...body && { body: { required: !body.safeParse(undefined).success, content: { 'application/json': { schema: bodySchema ?? body } } } },
    ...form && { body: { required: true, content: { 'multipart/form-data': { schema: form.extend({ file: z.string().meta({ format: 'binary', description: FILE_WORDS }) }) } } } },
  }
}

/** The problems that follow from what an address takes. */
function problemsOf({ method, path, body, form, problems = [] }: Address): number[] {
  const changes = method !== 'get'
  return [...new Set([
    400, ...changes ? [403] : [], ...namesIn(path).length > 0 ? [404] : [], 405, ...body || form ? [413] : [], ...form ? [415] : [], ...problems, 500,
  ])].sort((a, b) => a - b)
}

function responses(address: Address): RouteConfig['responses'] {
  const { statuses = { 200: address.summary } } = address
  const good = Object.entries(statuses).map(([status, description]) => (
    [status, { description, ...(Number(status) < 204 && { content: content(address) }) }] as const))
  const bad = problemsOf(address).map((status) => [status, {
    description: TITLES[status] ?? 'A problem', content: { 'application/problem+json': { schema: refTo('Problem') } },
    ...status === 405 && { headers: { Allow: { description: 'The methods that are answered', required: true, schema: { type: 'string' as const } } } },
  }] as const)
  return Object.fromEntries([...good, ...bad]) as RouteConfig['responses']
}

const operationId = ({ method, path }: Address): string =>
  method + path.replace(/^\/(api\/)?(v1\/)?/, '/').replace(/[^A-Za-z0-9]+(\w)/g, (_, letter: string) => letter.toUpperCase()).replace(/\W/g, '')

const tag = (path: string): string => path.replace(/^\/(api\/)?(v1\/)?/, '').split(/[/.]/)[0] ?? ''

/** The OpenAPI 3.1 document, made from the schemas that the handlers and the pages use. */
export function openApiDocument() {
  const registry = new OpenAPIRegistry()
  registry.registerComponent('securitySchemes', BEARER, { type: 'http', scheme: 'bearer', description: 'Any token; it marks a program.' })
  for (const name of Object.keys(ANSWERS) as AnswerName[]) registry.registerComponent('schemas', name, jsonSchemaOf(name))
  for (const address of ADDRESSES) {
    registry.registerPath({
      method: address.method, path: address.path, summary: address.summary, operationId: operationId(address), tags: [tag(address.path)],
      ...address.method !== 'get' && { security: [{ [BEARER]: [] }] },
      request: request(address), responses: responses(address),
    })
  }
  const document = new OpenApiGeneratorV31(registry.definitions).generateDocument({
    openapi: '3.1.0', info: { title: 'Spanledger', version: '1', description: DESCRIPTION, license: { name: 'MIT', identifier: 'MIT' } },
    servers: [{ url: '/' }],
  })
  for (const { method, path } of ADDRESSES) completeParameters(document.paths?.[path]?.[method]?.parameters)
  return document
}

type Paths = ReturnType<OpenApiGeneratorV31['generateDocument']>['paths']
type Parameters = NonNullable<NonNullable<Paths>[string]['get']>['parameters']

/** Each with its sentence; lists as `class=urgent,critical`, which OpenAPI would otherwise have as one parameter per item. */
function completeParameters(parameters: Parameters): void {
  for (const parameter of parameters ?? []) {
    if (!('name' in parameter)) continue
    parameter.description ??= PARAMETERS[parameter.name]
    const { schema } = parameter
    if (schema && 'type' in schema && schema.type === 'array') Object.assign(parameter, { explode: false })
  }
}
