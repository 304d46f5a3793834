import { expect, test, type APIRequestContext } from '@playwright/test'
import { z } from 'zod'
import { undoneImport } from '@/lib/contract/api'
import {
  circuitSummary, importReport, importStatus, page, reading, rowIssue, spliceList, type ImportStatus, type SpliceSummary,
} from '@/lib/contract/contract'
import { importPage, importPreview, kindDescription } from '@/lib/contract/intake'
import { problem } from '@/lib/contract/problem'

const circuitPage = page(circuitSummary).extend({ total: z.number() })
const AS_PROGRAM = { Authorization: 'Bearer browser-test' }
const HEADER = [
  'reading_id', 'survey', 'taken_at', 'lon', 'lat', 'gnss_accuracy_m', 'position_of', 'platform', 'kind', 'circuit', 'phase', 'splice_id',
  'side_a_uohm', 'side_b_uohm', 'conductor_uohm', 'electrode_span_m', 'conductor_span_m', 'test_current', 'note',
].join(',')

async function soundSplice(request: APIRequestContext): Promise<SpliceSummary> {
  const { items } = spliceList.parse(await (await request.get('/api/v1/splices?class=sound&limit=1')).json())
  if (!items[0]) throw new Error('The demo has no sound splice.')
  return items[0]
}

const row = (id: string, at: SpliceSummary, numbers: string, note = '') => [
  id, 'API trial', '2026-11-10T09:00:00-07:00', at.lon, at.lat, 3, 'target', 'bucket', 'resistance', at.circuit, at.phase ?? '', at.splice,
  numbers, '0.3048,0.3048', 'live-ac', note,
].join(',')

interface Sent { name: string; bytes: Buffer; fields?: Record<string, string>; headers?: Record<string, string> }

const send = (request: APIRequestContext, { name, bytes, fields = {}, headers = AS_PROGRAM }: Sent, path = '/api/v1/imports') => (
  request.post(path, {
    headers, multipart: { kind: 'readings', ...fields, file: { name, mimeType: 'text/csv', buffer: bytes } }, timeout: 120_000,
  }))

async function ended(request: APIRequestContext, id: number): Promise<ImportStatus> {
  let status: ImportStatus | undefined
  await expect.poll(async () => {
    status = importStatus.parse(await (await request.get(`/api/v1/imports/${id}`)).json())
    return status.state
  }, { timeout: 90_000 }).toMatch(/^(done|failed)$/)
  if (!status) throw new Error('No status was read.')
  return status
}

test.describe('a file over HTTP', () => {
  test('is previewed, imported in the background, known again and undone as one act', async ({ request }) => {
    const at = await soundSplice(request)
    const text = [HEADER, row('API-1', at, '8,7,12'), row('API-2', at, '8,-7,12'), row('API-3', at, 'many,7,12')].join('\r\n')
    const file = { name: 'trial.csv', bytes: Buffer.from(text) }

    const preview = importPreview.parse(await (await send(request, file, '/api/v1/imports/preview')).json())
    expect(preview.kind).toBe('readings')
    expect(preview.rows.map((r) => r.becomes.state)).toEqual(['placed', 'rejected', 'rejected'])

    const first = await send(request, file)
    expect(first.status()).toBe(202)
    const { id } = importStatus.parse(await first.json())
    const { report } = await ended(request, id)
    expect(report).toMatchObject({ rows: 3, read: 1, rejected: 2, placed: 1 })
    expect(new Set(report?.issues.filter((i) => i.severity === 'error').map((i) => `${i.row} ${i.field}`))).toEqual(
      new Set(['2 side_b_uohm', '3 side_a_uohm']))

    const again = await send(request, file)
    expect(again.status()).toBe(200)
    expect(importStatus.parse(await again.json())).toMatchObject({ id, report: { rows: 3, read: 1 } })

    const issues = page(rowIssue).parse(await (await request.get(`/api/v1/imports/${id}/issues`)).json())
    expect(issues.items.every((i) => i.message.length > 0 && i.remedy.length > 0)).toBe(true)
    const rejected = await (await request.get(`/api/v1/imports/${id}/rejected.csv`)).text()
    expect(rejected).toContain('import,row,line,field,value,code,message,remedy,reading_id,')
    expect(rejected.match(/API-\d/g)).toEqual(['API-2', 'API-3'])
    const { items: [held] } = page(reading).parse(await (await request.get(`/api/v1/readings?import=${id}`)).json())
    expect(held).toMatchObject({ reading_id: 'API-1', lon: at.lon, lat: at.lat, placement: { state: 'placed', splice_id: at.id } })

    const undone = undoneImport.parse(await (await request.delete(`/api/v1/imports/${id}`, { headers: AS_PROGRAM })).json())
    expect(undone).toMatchObject({ state: 'undone', undo: { readings_withdrawn: 1 } })
    const twice = await request.delete(`/api/v1/imports/${id}`, { headers: AS_PROGRAM })
    expect([twice.status(), problem.parse(await twice.json()).code]).toEqual([409, 'wrong-state'])
    expect(importPage.parse(await (await request.get('/api/v1/imports')).json()).items[0]).toMatchObject({ id, state: 'undone' })
  })

  test('of 11 MB arrives whole', async ({ request }) => {
    const at = await soundSplice(request)
    const rows = 2_000
    const lines = Array.from({ length: rows }, (_, i) => row(`BIG-${i}`, at, '8,7,12', 'n'.repeat(5_500)))
    const bytes = Buffer.from([HEADER, ...lines].join('\n'))
    expect(bytes.byteLength).toBeGreaterThan(11_000_000)
    const { id } = importStatus.parse(await (await send(request, { name: 'big.csv', bytes, fields: { dry_run: '1' } })).json())
    const status = await ended(request, id)
    expect(status).toMatchObject({ state: 'done', size_bytes: bytes.byteLength, report: { rows } })
    expect((status.report?.read ?? 0) + (status.report?.rejected ?? 0)).toBe(rows)
  })

  for (const megabytes of [101, 120]) {
    test(`of ${megabytes} MB is refused by the named limit and nothing of it is kept`, async ({ request }) => {
      const before = importPage.parse(await (await request.get('/api/v1/imports')).json()).items[0]?.id
      const answer = await send(request, { name: 'huge.csv', bytes: Buffer.alloc(megabytes * 1_000_000, 'x') })
      expect(answer.status()).toBe(413)
      expect(answer.headers()['content-type']).toBe('application/problem+json')
      const { code, detail, remedy } = problem.parse(await answer.json())
      expect(code).toBe('too-large')
      expect(detail).toContain('100 MB')
      expect(remedy).toContain('npm run import')
      expect(importPage.parse(await (await request.get('/api/v1/imports')).json()).items[0]?.id).toBe(before)
    })
  }

  test('opens its report with a reading that is critical by its own numbers', async ({ request }) => {
    const at = await soundSplice(request)
    const bytes = Buffer.from([HEADER, row('HOT-1', at, '10,53,12')].join('\n'))
    const { id } = importStatus.parse(await (await send(request, { name: 'hot.csv', bytes, fields: { dry_run: '1' } })).json())
    const { report } = await ended(request, id)
    expect(report?.urgent).toEqual([expect.objectContaining({ reading_key: 'HOT-1', class: 'critical' })])
    expect(report?.urgent[0]?.ratio).toBeCloseTo(4.42, 2)
  })
})

test.describe('readings from another program', () => {
  test('are imported with the report of a file', async ({ request }) => {
    const at = await soundSplice(request)
    const body = [{
      reading_id: 'POST-1', survey: 'API trial', taken_at: '2026-11-10T10:00:00-07:00', lon: at.lon, lat: at.lat, gnss_accuracy_m: 3,
      position_of: 'target', platform: 'bucket', kind: 'resistance', circuit: at.circuit, splice_id: at.splice,
      side_a_uohm: 8, side_b_uohm: 7,
      conductor_uohm: 12, electrode_span_m: 0.3048, conductor_span_m: 0.3048, test_current: 'live-ac',
    }, { reading_id: 'POST-2', kind: 'resistance', lon: 'east', lat: 47 }]
    const answer = await request.post('/api/v1/readings', { headers: AS_PROGRAM, data: body })
    expect(answer.status()).toBe(200)
    const report = importReport.parse(await answer.json())
    expect(report).toMatchObject({ rows: 2, read: 1, rejected: 1, placed: 1 })
    expect((await request.delete(`/api/v1/imports/${report.import_id}`, { headers: AS_PROGRAM })).status()).toBe(200)
  })

  test('over 10,000 are refused before any is read', async ({ request }) => {
    const rows = Array.from({ length: 10_001 }, () => ({ kind: 'visual' }))
    const answer = await request.post('/api/v1/readings', { headers: AS_PROGRAM, data: rows })
    expect([answer.status(), problem.parse(await answer.json()).code]).toEqual([400, 'invalid'])
  })
})

test.describe('what changes something', () => {
  for (const [who, headers] of [['without an origin', {}], ['from another origin', { Origin: 'http://elsewhere.example' }]] as const) {
    test(`is refused ${who}`, async ({ request }) => {
      const answers = [
        await send(request, { name: 'a.csv', bytes: Buffer.from(HEADER), headers }),
        await request.put('/api/v1/settings', { headers, data: { utility_name: 'Taken over' } }),
        await request.put('/api/v1/policy', { headers, data: {} }),
        await request.delete('/api/v1/imports/1', { headers }),
        await request.post('/api/v1/readings/1/placement', { headers, data: { action: 'reject' } }),
      ]
      for (const answer of answers) expect([answer.status(), problem.parse(await answer.json()).code]).toEqual([403, 'foreign-origin'])
      expect(await (await request.get('/api/v1/settings')).json()).not.toMatchObject({ utility_name: 'Taken over' })
    })
  }
})

test.describe('what is not there', () => {
  for (const path of [
    'circuits/999999', 'circuits/x', 'circuits/999999/health', 'splices/0', 'readings/999999', 'imports/999999', 'jobs/999999',
  ]) {
    test(`is a problem: ${path}`, async ({ request }) => {
      const answer = await request.get(`/api/v1/${path}`)
      expect(answer.headers()['content-type']).toBe('application/problem+json')
      expect(problem.parse(await answer.json())).toMatchObject({ status: 404, code: 'not-found' })
    })
  }

  test('is a problem where nothing answers or the method is another', async ({ request }) => {
    for (const path of ['/api', '/api/v1', '/api/v1/nowhere', '/api/v1/circuits/1/nowhere']) {
      const answer = await request.get(path)
      expect([answer.status(), answer.headers()['content-type']], path).toEqual([404, 'application/problem+json'])
      expect(problem.parse(await answer.json()).code).toBe('no-such-address')
    }
    for (const [method, path, allow] of [
      ['PUT', '/api/v1/imports', 'GET, POST, HEAD, OPTIONS'], ['DELETE', '/api/v1/circuits/1', 'GET, HEAD, OPTIONS'], ['GET', '/api/v1/imports/preview', 'POST, OPTIONS'],
    ] as const) {
      const answer = await request.fetch(path, { method, headers: AS_PROGRAM })
      expect([answer.status(), answer.headers().allow, problem.parse(await answer.json()).code], path).toEqual([405, allow, 'method-not-allowed'])
    }
    const { items } = z.object({ items: z.array(z.object({ fields: z.string() })) }).parse(await (await request.get('/api/v1/templates')).json())
    for (const { fields } of items) kindDescription.parse(await (await request.get(fields)).json())
  })

  test('is a problem where a cursor is none, and no first page', async ({ request }) => {
    const at = await soundSplice(request)
    for (const path of ['imports?cursor=x', 'review?cursor=WzFd', 'splices?cursor=Wzk5XQ', 'readings?import=1&cursor=bnVsbA', 'splices?sort=place&cursor=WzEsMiwzXQ']) {
      const answer = await request.get(`/api/v1/${path}`)
      expect([answer.status(), problem.parse(await answer.json()).code], path).toEqual([400, 'bad-cursor'])
    }
    const first = spliceList.parse(await (await request.get('/api/v1/splices?limit=2')).json())
    const second = spliceList.parse(await (await request.get(`/api/v1/splices?limit=2&cursor=${first.next_cursor}`)).json())
    expect(second.items.some((splice) => first.items.some((other) => other.id === splice.id))).toBe(false)
    const elsewhere = await request.get(`/api/v1/splices?limit=2&class=sound&cursor=${first.next_cursor}`)
    expect([elsewhere.status(), problem.parse(await elsewhere.json()).code]).toEqual([400, 'bad-cursor'])
    const unknown = await request.get(`/api/v1/splices/${at.id}?verbose=1`)
    expect([unknown.status(), problem.parse(await unknown.json()).code]).toEqual([400, 'unknown-key'])
  })

  test('is paged alike in every list, within the same limits', async ({ request }) => {
    const anImport = importPage.parse(await (await request.get('/api/v1/imports?limit=1')).json()).items[0]
    const lists = ['circuits', 'corridors', 'splices', 'imports', 'imports?dry_run=1', 'review', `readings?import=${anImport?.id}`, `imports/${anImport?.id}/issues`]
    for (const list of lists) {
      const ask = (limit: number) => request.get(`/api/v1/${list}${list.includes('?') ? '&' : '?'}limit=${limit}`)
      const one = z.object({ items: z.array(z.unknown()), next_cursor: z.string().nullable() }).parse(await (await ask(1)).json())
      expect(one.items.length, list).toBeLessThan(2)
      expect((await ask(500)).status(), list).toBe(200)
      for (const limit of [0, 501]) expect(problem.parse(await (await ask(limit)).json()).errors?.map((e) => e.path), list).toEqual(['limit'])
    }
    const circuits = circuitPage.parse(await (await request.get('/api/v1/circuits')).json())
    const first = circuitPage.parse(await (await request.get('/api/v1/circuits?limit=2')).json())
    const next = circuitPage.parse(await (await request.get(`/api/v1/circuits?limit=2&cursor=${first.next_cursor}`)).json())
    expect([...first.items, ...next.items].map(({ id }) => id)).toEqual(circuits.items.slice(0, 4).map(({ id }) => id))
    expect(first.total).toBe(circuits.items.length)
  })

  test('is a problem that says where to look where a number is nothing', async ({ request }) => {
    for (const [path, list] of [['imports', '/api/v1/imports'], ['splices', '/api/v1/splices'], ['circuits', '/api/v1/circuits'], ['readings', '/api/v1/review']]) {
      const told = problem.parse(await (await request.get(`/api/v1/${path}/999999999`)).json())
      expect([told.status, told.remedy], path).toEqual([404, expect.stringContaining(list ?? '')])
    }
  })

  test('is a problem where a query does not fit', async ({ request }) => {
    const answer = await request.get('/api/v1/splices?class=splendid&limit=9999')
    expect(answer.status()).toBe(400)
    expect(problem.parse(await answer.json()).errors?.map((e) => e.path)).toEqual(['class', 'limit'])
  })
})

test.describe('what the map asks for', () => {
  test('tiles come compressed, are kept, and are sent again only when something changed', async ({ request, baseURL }) => {
    for (const layer of ['splices', 'circuits']) {
      const first = await fetch(`${baseURL}/tiles/${layer}/6/11/22`, { headers: { 'Accept-Encoding': 'gzip' } })
      expect(first.status).toBe(200)
      expect(first.headers.get('content-encoding')).toBe('gzip')
      expect(first.headers.get('content-type')).toBe('application/vnd.mapbox-vector-tile')
      expect(first.headers.get('cache-control')).toContain('private')
      const etag = first.headers.get('etag') ?? ''
      expect((await request.get(`/tiles/${layer}/6/11/22`, { headers: { 'If-None-Match': etag } })).status()).toBe(304)
      expect((await request.get(`/tiles/${layer}/6/11/22?v=64`)).status()).toBe(200)
      expect((await request.get(`/tiles/${layer}/6/11/22?zoom=6`)).status()).toBe(400)
      expect((await request.get(`/tiles/${layer}/6/11/22?class=critical`, { headers: { 'If-None-Match': etag } })).status()).not.toBe(304)
      const outside = await request.get(`/tiles/${layer}/6/64/0`)
      expect([outside.status(), problem.parse(await outside.json()).code]).toEqual([404, 'no-such-tile'])
      const plain = await fetch(`${baseURL}/tiles/${layer}/6/11/22`, { headers: { 'Accept-Encoding': 'identity' } })
      expect(plain.headers.get('content-encoding')).toBeNull()
      expect(Buffer.from(await plain.arrayBuffer())).toEqual(Buffer.from(await first.arrayBuffer()))
    }
  })

  test('the basemap answers for a range of bytes', async ({ request }) => {
    const answer = await request.get('/basemap.pmtiles', { headers: { Range: 'bytes=0-6' } })
    expect(answer.status()).toBe(206)
    expect(await answer.text()).toBe('PMTiles')
  })
})

test('every page has a content policy with a nonce of its own', async ({ request }) => {
  const policies = await Promise.all([1, 2].map(async () => (await request.get('/health')).headers()['content-security-policy'] ?? ''))
  const nonces = policies.map((policy) => /script-src 'self' 'nonce-([^']+)'(;|$)/.exec(policy)?.[1])
  expect(nonces.every(Boolean)).toBe(true)
  expect(nonces[0]).not.toBe(nonces[1])
  for (const policy of policies) expect(policy).toMatch(/worker-src 'self'.*frame-ancestors 'none'/)
})

test('the OpenAPI document and the health checks answer', async ({ request }) => {
  const document: unknown = await (await request.get('/api/openapi.json')).json()
  expect(document).toMatchObject({ openapi: '3.1.0', paths: { '/api/v1/imports': { post: {} } } })
  expect(await (await request.get('/api/health/live')).json()).toEqual({ status: 'live' })
  expect(await (await request.get('/api/health/ready')).json()).toEqual({ status: 'ready' })
})
