import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { ADDRESSES } from '@/app/api/openapi.json/addresses'
import { openApiDocument } from '@/app/api/openapi.json/document'

const routes = fs.readdirSync('app', { recursive: true, encoding: 'utf8' })
  .filter((file) => path.basename(file) === 'route.ts')
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

describe('the OpenAPI document', () => {
  const answered = routes.filter(({ file }) => !file.includes('openapi.json')).flatMap(({ file, source }) => {
    return [...source.matchAll(/export (?:const|(?:async )?function) (GET|POST|PUT|DELETE)/g)].map(([, method]) => `${method} ${addressOf(file)}`)
  })

  it('names every address that is answered, and no other', () => {
    expect(ADDRESSES.map(({ method, path }) => `${method.toUpperCase()} ${path}`).sort()).toEqual(answered.sort())
  })

  it('says that lists are written with commas', () => {
    const parameters = openApiDocument().paths?.['/api/v1/splices']?.get?.parameters
    expect(parameters).toContainEqual(expect.objectContaining({ name: 'class', in: 'query', explode: false }))
  })
})
