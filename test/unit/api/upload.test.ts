import fs from 'node:fs'
import os from 'node:os'
import { describe, expect, it } from 'vitest'
import { receiveUpload, type Upload } from '@/app/api/http/upload'

const LIMIT_BYTES = 10_000

function form(parts: [string, string | Blob][]): Request {
  const data = new FormData()
  for (const [name, value] of parts) data.append(name, value)
  return new Request('http://x/', { method: 'POST', body: data })
}

const file = (bytes: number) => new File([new Uint8Array(bytes).fill(65)], '../../etc/números 45A.csv')

async function refusal(request: Request) {
  const result = await receiveUpload(request, LIMIT_BYTES)
  if (result.ok) throw new Error('it was taken')
  return (await result.error.json()) as { status: number; code: string }
}

async function text(upload: Upload): Promise<string> {
  let all = ''
  for await (const chunk of upload.bytes()) all += Buffer.from(chunk).toString()
  return all
}

const leftovers = () => fs.readdirSync(os.tmpdir()).filter((name) => name.startsWith('spanledger-upload-'))

describe('an upload', () => {
  it('arrives whole, with fields before and after the file', async () => {
    const result = await receiveUpload(form([['kind', 'readings'], ['file', file(9000)], ['survey', 'Spring']]), LIMIT_BYTES)
    if (!result.ok) throw new Error('it was refused')
    expect(result.value).toMatchObject({ fileName: 'números 45A.csv', sizeBytes: 9000, fields: { kind: 'readings', survey: 'Spring' } })
    expect(await text(result.value)).toBe('A'.repeat(9000))
    await result.value.discard()
  })

  it('may be as large as the limit and not one byte more', async () => {
    const taken = await receiveUpload(form([['file', file(LIMIT_BYTES)]]), LIMIT_BYTES)
    expect(taken.ok && taken.value.sizeBytes).toBe(LIMIT_BYTES)
    if (taken.ok) await taken.value.discard()
    expect(await refusal(form([['file', file(LIMIT_BYTES + 1)]]))).toMatchObject({ status: 413, code: 'too-large' })
  })

  it('that announces too much is refused before anything of it is read', async () => {
    const request = new Request('http://x/', {
      method: 'POST', body: 'x', headers: { 'content-type': 'multipart/form-data; boundary=b', 'content-length': '120000000' },
    })
    expect(await refusal(request)).toMatchObject({ status: 413, code: 'too-large' })
  })

  it('that was cut short on its way is refused', async () => {
    const whole = await form([['file', file(5000)]]).arrayBuffer()
    const type = new Response(new FormData()).headers.get('content-type') ?? ''
    const boundary = new TextDecoder().decode(whole).slice(2, 100).split('\r\n')[0]
    const request = new Request('http://x/', {
      method: 'POST', body: whole.slice(0, 3000), headers: { 'content-type': type.replace(/boundary=.*/, `boundary=${boundary}`) },
    })
    expect(await refusal(request)).toMatchObject({ status: 400, code: 'truncated' })
  })

  it.each([
    ['no file', form([['kind', 'readings']]), 400, 'no-file'],
    ['two files', form([['file', file(10)], ['file', file(10)]]), 400, 'no-file'],
    ['another kind of content', new Request('http://x/', { method: 'POST', body: '{}' }), 415, 'not-a-form'],
  ])('with %s is refused', async (_what, request, status, code) => {
    expect(await refusal(request)).toMatchObject({ status, code })
  })

  it('leaves nothing behind when refused', async () => {
    const before = leftovers()
    await refusal(form([['file', file(LIMIT_BYTES * 3)]]))
    await refusal(form([['file', file(10)], ['file', file(10)]]))
    expect(leftovers()).toEqual(before)
  })
})
