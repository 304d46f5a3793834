import { describe, expect, it } from 'vitest'
import { caught } from '@/app/api/http/handler'
import { problem } from '@/lib/contract/problem'
import { BadCursor, fromCursor, pageOf } from '@/lib/store/cursor'

const LIST = ['splices', 'class=urgent', 'worst']
const toCursor = (keys: (string | number)[]): string => pageOf([1, 2], 1, () => keys, LIST).next_cursor ?? ''

describe('a cursor', () => {
  it('comes back as it was given', () => {
    expect(fromCursor(toCursor([3, 7]), ['int', 'int'], LIST)).toEqual([3, 7])
    expect(fromCursor(toCursor(['KF-1', 'main', 12.5, 3]), ['text', 'text', 'float8', 'int'], LIST)).toEqual(['KF-1', 'main', 12.5, 3])
    expect(fromCursor(undefined, ['int'], LIST)).toBeNull()
    expect(pageOf([1, 2, 3], 2, (row) => [row], LIST)).toEqual({ items: [1, 2], next_cursor: toCursor([2]) })
  })

  it.each([
    ['made up', 'page2'], ['empty', ''], ['of another length', toCursor([1])], ['of other types', toCursor(['a', 'b'])], ['too large', toCursor([1e12, 1])],
    ['a fraction', toCursor([1.5, 1])], ['cut short', toCursor([123, 456]).slice(0, -2)], ['no list', Buffer.from('{"a":1}').toString('base64url')],
  ])('%s is refused, and the first page is not given for it', async (_what, cursor) => {
    expect(() => fromCursor(cursor, ['int', 'int'], LIST)).toThrow(BadCursor)
    const answer = await caught(async () => {
      fromCursor(cursor, ['int', 'int'], LIST)
      return new Response()
    })(new Request('http://x/'), { params: Promise.resolve({}) })
    expect(problem.parse(await answer.json())).toMatchObject({ status: 400, code: 'bad-cursor', errors: [{ path: 'cursor' }] })
  })

  it.each([[['splices', 'class=watch', 'worst']], [['splices', 'class=urgent', 'place']], [['readings', 'class=urgent', 'worst']], [['splices']]])('of another list is refused: %j', (other) => {
    expect(() => fromCursor(toCursor([3, 7]), ['int', 'int'], other)).toThrow(BadCursor)
  })
})
