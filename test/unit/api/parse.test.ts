import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { parseBody, parseId, parseQuery } from '@/app/api/http/parse'
import { problem as problemSchema } from '@/lib/contract/problem'
import { spliceListQuery } from '@/lib/contract/filter'

const schema = z.object({ note: z.string().max(3) })
const post = (body: string) => new Request('http://x/', { method: 'POST', body })

describe('a body', () => {
  it('is given back as its schema reads it', async () => {
    expect(await parseBody(post('{"note":"abc"}'), schema)).toEqual({ ok: true, value: { note: 'abc' } })
  })

  it.each([
    ['is not JSON', '{"note":', 400, 'not-json'],
    ['is empty', '', 400, 'not-json'],
    ['does not fit', '{"note":"abcd"}', 400, 'invalid'],
    ['is too large', `{"note":"${'a'.repeat(2000)}"}`, 413, 'too-large'],
  ])('that %s is a problem of RFC 9457', async (_what, body, status, code) => {
    const result = await parseBody(post(body), schema, 1000)
    if (result.ok) throw new Error('it was taken')
    expect(result.error.headers.get('content-type')).toBe('application/problem+json')
    const problem = problemSchema.parse(await result.error.json())
    expect(problem).toMatchObject({ status, code, type: `urn:spanledger:problem:${code}` })
    expect(problem.remedy).toMatch(/\.$/)
  })

  it('that does not fit names the field', async () => {
    const result = await parseBody(post('{"note":"abcd"}'), schema)
    expect(result.ok ? null : await result.error.json()).toMatchObject({ errors: [{ path: 'note' }] })
  })
})

describe('a zero byte', () => {
  it('is refused wherever it stands in a query or a body', async () => {
    const asked = parseQuery(new Request('http://x/?q=a%00'), z.object({ q: z.string() }))
    const sent = await parseBody(post(JSON.stringify({ note: '\0' })), schema)
    for (const [result, path] of [[asked, 'q'], [sent, 'note']] as const) {
      if (result.ok) throw new Error('it was taken')
      const told = problemSchema.parse(await result.error.json())
      expect(told).toMatchObject({ status: 400, code: 'invalid', errors: [{ path }] })
      expect(told.detail).toContain('zero byte')
    }
  })
})

describe('a body that may be left away', () => {
  it('is what its schema has for that', async () => {
    expect(await parseBody(post(''), schema.default({ note: '' }))).toEqual({ ok: true, value: { note: '' } })
  })
})

describe('the query of a list', () => {
  const query = (text: string) => parseQuery(new Request(`http://x/?${text}`), spliceListQuery)

  it('reads classes, circuits, voltages and a box', () => {
    expect(query('class=urgent,critical&circuit=3,7&voltage=230&bbox=-116,46,-114,48.5&limit=20')).toEqual({
      ok: true, value: { class: ['urgent', 'critical'], circuit: [3, 7], voltage: [230], bbox: [-116, 46, -114, 48.5], limit: 20 },
    })
  })

  // RFC 7946, 5.2: a box across the antimeridian has its west greater than its east.
  it('takes a box across the 180th meridian', () => {
    expect(query('bbox=177,-20,-178,-16')).toEqual({ ok: true, value: { bbox: [177, -20, -178, -16] } })
  })

  it('keeps an empty class list, which shows nothing', () => {
    expect(query('class=')).toEqual({ ok: true, value: { class: [] } })
  })

  it('joins a list that is given again, and reads phases in any case', () => {
    expect(query('class=urgent&class=critical&phase=a,Unknown')).toEqual({ ok: true, value: { class: ['urgent', 'critical'], phase: ['A', 'unknown'] } })
  })

  it('refuses by name what is given again and is no list', async () => {
    const again = query('limit=5&limit=6&sort=worst&bbox=0,0,1,1&bbox=0,0,1,1')
    expect(again.ok ? null : await again.error.json()).toMatchObject({
      status: 400, code: 'repeated-key', detail: 'limit is given 2 times. bbox is given 2 times.', remedy: 'limit: Give limit once: it is no list. bbox: Give bbox once: it is no list.',
      errors: [{ path: 'limit' }, { path: 'bbox' }],
    })
  })

  it('names the phases there are where one is none', async () => {
    const refused = query('phase=A,Q')
    expect(refused.ok ? null : await refused.error.json()).toMatchObject({
      status: 400, errors: [{ path: 'phase', message: "phase is 'A,Q', which it cannot be.", remedy: 'Give one of: A, B, C, unknown.' }],
    })
  })

  it.each([
    'class=fine', 'circuit=0', 'circuit=x', 'bbox=1,2,3', 'bbox=0,0,200,10', 'limit=0', 'limit=501', 'sort=best',
  ])('refuses %s', (text) => {
    expect(query(text).ok).toBe(false)
  })
})

describe('an id in an address', () => {
  it.each([['1', 1], ['2147483647', 2147483647]])('%s is taken', (text, id) => expect(parseId(text)).toBe(id))
  it.each(['0', '-1', '1.5', '01', '2147483648', '1e3', ' 1', '', 'abc'])('"%s" is not', (text) => expect(parseId(text)).toBeNull())
})
