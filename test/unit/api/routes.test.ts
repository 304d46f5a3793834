import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { Validator } from '@seriousme/openapi-schema-validator'
import { ADDRESSES } from '@/app/api/openapi.json/addresses'
import { openApiDocument } from '@/app/api/openapi.json/document'
import { problem } from '@/lib/contract/problem'

const METHODS = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'] as const

const routes = fs.readdirSync('app', { recursive: true, encoding: 'utf8' })
  .filter((file) => path.basename(file) === 'route.ts' && !file.includes('[[')) // that one answers for what is nowhere else
  .map((file) => ({ file, source: fs.readFileSync(path.join('app', file), 'utf8') }))

const addressOf = (file: string) => `/${path.dirname(file).replaceAll('[', '{').replaceAll(']', '}')}`

describe('every address of the API', () => {
  it.each(routes.filter(({ source }) => /export const (POST|PUT|PATCH|DELETE)/.test(source)))('$file guards what changes something', ({ source }) => {
    for (const [, handler] of source.matchAll(/export const (?:POST|PUT|PATCH|DELETE) = (\w+)/g)) expect(handler).toMatch(/^changing(One)?$/)
    expect(source).not.toMatch(/export (async )?function (POST|PUT|PATCH|DELETE)/)
  })

  it.each(routes)('$file is answered from the data of the moment', ({ source }) => {
    expect(source).toContain("export const dynamic = 'force-dynamic'")
  })
})

describe('a method that an address does not have', () => {
  it.each(routes)('is refused at $file with the methods that it has', async ({ file, source }) => {
    const own = [...source.matchAll(/export (?:const|(?:async )?function) (GET|POST|PUT|PATCH|DELETE)\b/g)].map(([, method]) => method ?? '')
    const allowed = [...own.sort((a, b) => METHODS.indexOf(a as 'GET') - METHODS.indexOf(b as 'GET')), ...own.includes('GET') ? ['HEAD'] : [], 'OPTIONS'].join(', ')
    const route = (await import(path.resolve('app', file))) as Record<string, (request: Request) => Response>
    for (const method of METHODS.filter((each) => !own.includes(each))) {
      const answer = route[method]?.(new Request('http://x/api/v1/x', { method }))
      expect([answer?.status, answer?.headers.get('allow')], method).toEqual([405, allowed])
      expect(problem.parse(await answer?.json())).toMatchObject({ status: 405, code: 'method-not-allowed' })
    }
    expect(route.OPTIONS?.(new Request('http://x/', { method: 'OPTIONS' })).headers.get('allow')).toBe(allowed)
  })
})

describe('an address that nothing answers', () => {
  it('is a problem whatever the method', async () => {
    const route = (await import(path.resolve('app/api/[[...path]]/route.ts'))) as Record<string, (request: Request) => Response>
    for (const method of METHODS) {
      const answer = route[method]?.(new Request('http://x/api/v1/nowhere', { method }))
      expect(problem.parse(await answer?.json())).toMatchObject({ status: 404, code: 'no-such-address', detail: 'There is nothing at /api/v1/nowhere.' })
    }
  })
})

describe('the OpenAPI document', () => {
  const document = openApiDocument()
  const answered = routes.flatMap(({ file, source }) => {
    return [...source.matchAll(/export (?:const|(?:async )?function) (GET|POST|PUT|DELETE)/g)].map(([, method]) => `${method} ${addressOf(file)}`)
  })

  it('is one by the schema of OpenAPI 3.1', async () => {
    const result = await new Validator().validate(JSON.parse(JSON.stringify(document)) as Record<string, unknown>)
    expect(result).toEqual({ valid: true })
    const broken = await new Validator().validate({ openapi: '3.1.0', info: {}, paths: { x: 1 } })
    expect(broken.valid).toBe(false)
  })

  it('points only at schemas that it has', () => {
    const text = JSON.stringify(document)
    const names = new Set(Object.keys(document.components?.schemas ?? {}))
    const pointed = [...text.matchAll(/"#\/components\/schemas\/(\w+)"/g)].map(([, name]) => name ?? '')
    expect(pointed.length).toBeGreaterThan(100)
    expect(pointed.filter((name) => !names.has(name))).toEqual([])
  })

  it.each(ADDRESSES)('says of $method $path what it takes, answers and refuses', ({ method, path: at, query, body, form }) => {
    const operation = document.paths?.[at]?.[method]
    expect(operation).toMatchObject({ operationId: expect.any(String), summary: expect.any(String) })
    const parameters = (operation?.parameters ?? []) as { name: string; in: string; description?: string; required?: boolean }[]
    const placeholders = [...at.matchAll(/\{(\w+)\}/g)].map(([, name]) => name)
    expect(parameters.filter((each) => each.in === 'path').map((each) => each.name)).toEqual(placeholders)
    expect(parameters.filter((each) => each.in === 'query').map((each) => each.name)).toEqual(Object.keys(query?.shape ?? {}))
    for (const parameter of parameters) expect(parameter.description, parameter.name).toMatch(/\.$/)
    expect(Boolean(operation?.requestBody)).toBe(Boolean(body ?? form))
    const responses = Object.entries(operation?.responses ?? {}) as [string, { content?: Record<string, unknown> }][]
    expect(responses.some(([status]) => status.startsWith('2'))).toBe(true)
    for (const [status, { content }] of responses) {
      if (Number(status) >= 400) expect(Object.keys(content ?? {}), status).toEqual(['application/problem+json'])
    }
    const refused = responses.map(([status]) => Number(status)).filter((status) => status >= 400)
    expect(refused).toEqual(expect.arrayContaining([400, 405, 500, ...method === 'get' ? [] : [403], ...placeholders.length > 0 ? [404] : []]))
  })

  it('gives each operation a name of its own', () => {
    const ids = ADDRESSES.map(({ method, path: at }) => document.paths?.[at]?.[method]?.operationId)
    expect(new Set(ids).size).toBe(ids.length)
  })

  it('names every address that is answered, and no other', () => {
    expect(ADDRESSES.map(({ method, path }) => `${method.toUpperCase()} ${path}`).sort()).toEqual(answered.sort())
  })

  it('says that lists are written with commas', () => {
    const parameters = document.paths?.['/api/v1/splices']?.get?.parameters
    expect(parameters).toContainEqual(expect.objectContaining({ name: 'class', in: 'query', explode: false }))
  })
})
