import { describe, expect, it } from 'vitest'
import { originAsked, refuseForeign } from '@/app/api/http/guard'
import { problem as problemSchema } from '@/lib/contract/problem'

const request = (headers: Record<string, string>) => new Request('http://ops.example:3000/api/v1/imports', { method: 'POST', headers })
const own = { host: 'ops.example:3000' }

describe('a request that changes something', () => {
  it.each([
    ['a page of ours, told by Sec-Fetch-Site', { ...own, 'sec-fetch-site': 'same-origin' }],
    ['a page of ours, told by Origin', { ...own, origin: 'http://ops.example:3000' }],
    ['a page of ours behind a reverse proxy', { host: '10.0.0.7:3000', 'x-forwarded-host': 'ops.example', origin: 'https://ops.example' }],
    ['a program with a bearer token', { ...own, authorization: 'Bearer t0ken' }],
  ])('is let through from %s', (_who, headers) => {
    expect(refuseForeign(request(headers))).toBeNull()
  })

  it.each([
    ['nobody knows where', own],
    ['another site', { ...own, origin: 'http://elsewhere.example' }],
    ['our host on another port', { ...own, origin: 'http://ops.example:4000' }],
    ['a sandboxed frame', { ...own, origin: 'null' }],
    ['another site that a browser names', { ...own, 'sec-fetch-site': 'cross-site' }],
    ['a sister site', { ...own, 'sec-fetch-site': 'same-site', origin: 'http://ops.example:3000' }],
    ['the address bar', { ...own, 'sec-fetch-site': 'none' }],
    ['an empty bearer token', { ...own, authorization: 'Bearer ' }],
    ['basic credentials, which browsers send by themselves', { ...own, authorization: 'Basic dTpw' }],
  ])('is refused from %s', async (_who, headers) => {
    const refusal = refuseForeign(request(headers))
    expect(refusal?.status).toBe(403)
    expect(problemSchema.parse(await refusal?.json())).toMatchObject({ code: 'foreign-origin', status: 403 })
  })
})

describe('the address that was asked', () => {
  const asked = (headers: Record<string, string>) => originAsked(new Request('http://127.0.0.1:3000/api/v1/splices.csv', { headers }))

  it('is that of the Host header, behind a reverse proxy that of the proxy, and never a header that is no host', () => {
    expect(asked({ host: '192.0.2.7:8080' })).toBe('http://192.0.2.7:8080')
    expect(asked({ 'host': 'inner:3000', 'x-forwarded-host': 'lines.example.test', 'x-forwarded-proto': 'https' })).toBe('https://lines.example.test')
    expect(asked({ 'host': 'lines.example.test', 'x-forwarded-proto': 'javascript' })).toBe('http://lines.example.test')
    expect(asked({ host: 'no host' })).toBe('http://127.0.0.1:3000')
  })
})
