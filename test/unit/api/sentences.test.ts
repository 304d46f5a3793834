import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { checked, parseBody, parseQuery } from '@/app/api/http/parse'
import { policySchema } from '@/lib/condition'
import { policyBody, readingRows, readingsQuery, uploadFields } from '@/lib/contract/api'
import { clearBody } from '@/lib/contract/decision'
import { pageQuery } from '@/lib/contract/page'
import { problem, type Problem } from '@/lib/contract/problem'
import { spliceListQuery } from '@/lib/contract/filter'
import { placementDecision } from '@/lib/contract/intake'
import { faultsOf, firstUnknownKey } from '@/lib/contract/issue-sentence'
import { settingsBody } from '@/lib/contract/settings'

async function refusal(schema: z.ZodType, value: unknown): Promise<Problem> {
  const result = checked(value, schema, 'The body')
  if (result.ok) throw new Error('it was taken')
  return problem.parse(await result.error.json())
}

const queryRefusal = async (schema: z.ZodObject, query: string): Promise<Problem> => {
  const result = parseQuery(new Request(`http://x/?${query}`), schema)
  if (result.ok) throw new Error('it was taken')
  return problem.parse(await result.error.json())
}

describe('a query that does not fit', () => {
  it('in several places has one remedy for all of them, beside that of each', async () => {
    const two = await queryRefusal(spliceListQuery, 'limit=9999&bbox=1,2,3')
    expect(two).toMatchObject({ detail: 'bbox has 3 values, not 4. limit is \'9999\'.', remedy: expect.stringMatching(/^bbox: Give west, south, east, north in WGS84 degrees.* limit: Give at most 500\.$/) })
    expect(two.errors?.map(({ remedy }) => remedy)).toEqual([expect.stringMatching(/^Give west/), 'Give at most 500.'])
    const alike = await queryRefusal(z.object({ a: z.coerce.number(), b: z.coerce.number() }), 'a=x&b=y')
    expect(alike).toMatchObject({ detail: 'a is \'x\', not a number. b is \'y\', not a number.', remedy: 'Give a number.' })
    const many = await queryRefusal(z.object(Object.fromEntries('abcde'.split('').map((key, i) => [key, z.coerce.number().min(i + 1)]))), 'a=0&b=0&c=0&d=0&e=0')
    expect([many.detail?.endsWith(' 2 more are wrong.'), many.remedy]).toEqual([true, 'a: Give at least 1. b: Give at least 2. c: Give at least 3. The rest stands under errors.'])
    expect(many.errors).toHaveLength(5)
  })

  it.each([
    ['class=splendid', 'class is \'splendid\', which it cannot be.', 'Give one of: sound, watch, degraded, urgent, critical, unknown.'],
    ['limit=9999', 'limit is \'9999\'.', 'Give at most 500.'],
    ['limit=0', 'limit is \'0\'.', 'Give at least 1.'],
    ['limit=ten', 'limit is \'ten\', not a number.', 'Give a number.'],
    ['limit=1.5', 'limit is \'1.5\', not a whole number.', 'Give a whole number.'],
    ['sort=best', 'sort is \'best\', which it cannot be.', 'Give one of: risk, worst, unsound, place, recent.'],
    ['bbox=1,2,3', 'bbox has 3 values, not 4.', /^Give west, south, east, north in WGS84 degrees/],
    ['bbox=', 'bbox has 1 value, not 4.', /^Give west/],
    ['bbox=a,b,c,d', 'bbox holds \'a\', which is no number.', /^Give west/],
    ['bbox=1,,3,4', 'bbox leaves a value empty.', /^Give west/],
    ['bbox=0,0,200,10', 'bbox has east at 200, outside -180 to 180 degrees.', /^Give west/],
    ['bbox=-181,-91,200,100', 'bbox has west at -181, outside -180 to 180 degrees.', /^Give west/],
    ['bbox=0,95,10,10', 'bbox has south at 95, outside -90 to 90 degrees.', /^Give west/],
    ['bbox=-112,48,-111,47', 'bbox has south 48 above north 47.', /^Give west/],
  ])('%s is told by field, value and remedy', async (query, message, remedy) => {
    const { detail, remedy: told, errors } = await queryRefusal(spliceListQuery, query)
    expect(detail).toMatch(message)
    expect(told).toMatch(remedy)
    expect(errors).toMatchObject([{ message: detail, remedy: told }])
  })

  it('names what is not known, and what is', async () => {
    expect(await queryRefusal(spliceListQuery, 'clas=urgent')).toMatchObject({
      status: 400, code: 'unknown-key', detail: 'There is no \'clas\' here.',
      remedy: 'Leave it away, or use one of: class, circuit, voltage, phase, confidence, survey, age, evidence, bbox, cursor, limit, sort.', errors: [{ path: 'clas' }],
    })
    expect(await queryRefusal(z.object({}), 'v=1')).toMatchObject({ remedy: 'Leave it away: nothing is taken here.' })
  })

  it('says what is missing', async () => {
    expect((await queryRefusal(readingsQuery, '')).detail).toMatch(/^import is /)
    expect((await queryRefusal(pageQuery, `cursor=${'x'.repeat(600)}`)).detail).toBe('cursor has 600 characters.')
  })
})

describe('a body that does not fit', () => {
  it.each([
    [clearBody, { engineer: '', cause: 'repaired', reason: 3 }, ['engineer is empty.', 'reason is 3, not a text.']],
    [clearBody, { engineer: 'A. Noon' }, ['cause is missing.', 'reason is missing.']],
    [clearBody, { engineer: 'A', cause: 'weather', reason: 'b' }, ['cause is \'weather\', which it cannot be.']],
    [clearBody, { engineer: 'A', cause: 'other', reason: 'b' }, ['cause_text is missing: a cause that is none of these is named in words.']],
    [clearBody, { engineer: 'A', cause: 'repaired', reason: 'b', why: 'c' }, ['There is no \'why\' here.']],
    [clearBody, [], ['The body is a list, not an object.']],
    [policyBody, { values: 1, procedure_no: '', note: '' }, ['values is 1, not an object.']],
    [placementDecision, { action: 'move' }, ['action is \'move\', which fits nothing it can be.']],
    [placementDecision, { action: 'accept', candidate: -1, splice: 3 }, ['There is no \'splice\' here.', 'candidate is -1.']],
    [settingsBody, { phase_letters: { A: 'a', B: 'b', C: 'c', D: 'd' } }, ['There is no \'D\' in phase_letters.']],
    [settingsBody, { unit_system: 'imperial', colour: 'red' }, ['unit_system is \'imperial\', which it cannot be.', 'There is no \'colour\' here.']],
    [uploadFields, { kind: 'readings', mapping: '{' }, [/mapping: It is not JSON\.$/]],
    [uploadFields, { kind: 'tracks', dryrun: '1' }, ['kind is \'tracks\', which it cannot be.', 'There is no \'dryrun\' here.']],
    [readingRows, [], ['The body has 0 items.']],
    [readingRows, [{ a: { b: 1 } }], ['0.a is an object, which fits nothing it can be.']],
  ] as [z.ZodType, unknown, (string | RegExp)[]][])('is told field by field: %#', async (schema, value, messages) => {
    const { errors = [] } = await refusal(schema, value)
    for (const message of messages) expect(errors.map((error) => error.message)).toContainEqual(expect.stringMatching(typeof message === 'string' ? new RegExp(`^${escaped(message)}$`) : message))
    for (const { message, remedy } of errors) {
      expect(remedy).toMatch(/\.$/)
      expect(`${message} ${remedy}`).not.toMatch(/Invalid|expected|received|Too (small|big)|Unrecognized/)
    }
  })

  it('is a policy whose values are told alike', () => {
    const value = { edges: { watch: 'low', degraded: 1.3, urgent: 1.85, critical: 2.75 } }
    const parsed = policySchema.safeParse(value, { reportInput: true })
    expect(faultsOf(parsed.error?.issues ?? [], value, policySchema, 'The policy')).toMatchObject([
      { path: 'edges.watch', message: 'edges.watch is \'low\', not a number.', remedy: 'Give a number.' },
    ])
  })

  it('names a key at any depth that its schema left out', () => {
    expect(firstUnknownKey({ edges: { watch: 1, red: 2 } }, { edges: { watch: 1 } })).toBe('edges.red')
    expect(firstUnknownKey({ list: [{ a: 1 }, { b: 1 }] }, { list: [{ a: 1 }, {}] })).toBe('list.1.b')
    expect(firstUnknownKey({ a: 1 }, { a: 1, b: 2 })).toBeNull()
  })

  it('is parsed by the same words', async () => {
    const result = await parseBody(new Request('http://x/', { method: 'POST', body: '{"engineer":"A","cause":"repaired"}' }), clearBody)
    expect(result.ok ? null : await result.error.json()).toMatchObject({ code: 'invalid', detail: 'reason is missing.', remedy: 'Give a text.' })
  })
})

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
