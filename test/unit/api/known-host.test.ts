import { describe, expect, it } from 'vitest'
import { isKnownHost } from '@/app/api/http/known-host'

describe('the name by which a server is asked', () => {
  it.each([
    ['127.0.0.1:3000'], ['localhost:3000'], ['LOCALHOST'], ['spanledger.localhost:3000'], ['[::1]:3000'], ['10.1.2.3:3000'], [null],
  ])('%s is never a foreign page', (host) => {
    expect(isKnownHost(host, '127.0.0.1', '')).toBe(true)
  })

  it('is refused where the server listens on this machine alone and nobody gave it that name', () => {
    expect(isKnownHost('evil.example:3000', '127.0.0.1', '')).toBe(false)
    expect(isKnownHost('evil.example', '::1', 'lines.example')).toBe(false)
    expect(isKnownHost('localhost.evil.example', '127.0.0.1', '')).toBe(false)
    expect(isKnownHost('lines.example:443', '127.0.0.1', 'other.example, Lines.example')).toBe(true)
  })

  it('is any name where the operator opened the server to the network, until names are given', () => {
    expect(isKnownHost('lines.example', '0.0.0.0', '')).toBe(true)
    expect(isKnownHost('evil.example', '0.0.0.0', 'lines.example')).toBe(false)
  })
})
