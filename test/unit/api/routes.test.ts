import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'

const routes = fs.readdirSync('app', { recursive: true, encoding: 'utf8' })
  .filter((file) => path.basename(file) === 'route.ts')
  .map((file) => ({ file, source: fs.readFileSync(path.join('app', file), 'utf8') }))

describe('every address of the API', () => {
  it.each(routes.filter(({ source }) => /export const (POST|PUT|PATCH|DELETE)/.test(source)))('$file guards what changes something', ({ source }) => {
    for (const [, handler] of source.matchAll(/export const (?:POST|PUT|PATCH|DELETE) = (\w+)/g)) expect(handler).toMatch(/^changing(One)?$/)
    expect(source).not.toMatch(/export (async )?function (POST|PUT|PATCH|DELETE)/)
  })

  it.each(routes)('$file is answered from the data of the moment', ({ source }) => {
    expect(source).toContain("export const dynamic = 'force-dynamic'")
  })
})
