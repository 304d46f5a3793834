import { describe, expect, it } from 'vitest'
import { asSentences, refusalOf, RequestFailed } from '@/components/ui/fetch-json'
import { notFound } from '@/app/api/http/problem'

describe('a refusal on a screen', () => {
  it('is a sentence and what to do, without codes or addresses of the API', async () => {
    const answer = notFound('import')
    const body: unknown = await answer.json()
    expect(body).toMatchObject({ code: 'not-found', remedy: expect.stringContaining('/api/v1/imports') })
    expect(asSentences(refusalOf(answer.status, body, '/api/v1/imports/9'))).toEqual({
      title: 'There is no import with this number.', remedy: 'Look it up among the imports; what is not listed there is gone.',
    })
  })

  it('names where no answer came from', () => {
    expect(asSentences(new RequestFailed('The server did not answer.', 'Try again.', 0, '/api/v1/imports'))).toMatchObject({ where: '/api/v1/imports' })
  })
})
