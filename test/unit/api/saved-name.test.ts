import { describe, expect, it } from 'vitest'
import { csv } from '@/app/api/http/respond'

const given = (fileName: string): string | null => csv(fileName, '').headers.get('content-disposition')

/** RFC 6266, section 5: the examples of an attachment, with the letters of the percent encoding as RFC 3986, section 2.1, prefers them. */
describe('the name of a file to keep', () => {
  it('stands as it is where it is plain ASCII', () => {
    expect(given('example.html')).toBe('attachment; filename="example.html"')
  })

  it('is given a second time in UTF-8 where it is not', () => {
    expect(given('€ rates')).toBe('attachment; filename="_ rates"; filename*=UTF-8\'\'%E2%82%AC%20rates')
  })

  it.each(['a"b.csv', 'a\\b.csv', 'a\r\nSet-Cookie: x=1.csv', '100%.csv', 'it\'s (1)*.csv', '\ud800.csv'])('breaks out of nothing: %j', (fileName) => {
    const header = given(fileName) ?? ''
    expect(header).toMatch(/^attachment; filename="[^"\\\r\n%]*"(; filename\*=UTF-8''[A-Za-z0-9!#$&+.^_`|~%-]+)?$/)
    const whole = /filename\*=UTF-8''(.*)$/.exec(header)?.[1]
    if (whole !== undefined) expect(decodeURIComponent(whole)).toBe(fileName.toWellFormed())
  })
})
