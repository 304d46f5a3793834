import { describe, expect, it } from 'vitest'
import { DEMO_DIR } from '@/lib/launch/demo-database'
import { endedText, ownUtilityText, readyText } from '@/lib/launch/demo-text'

describe('the demo', () => {
  it('says where it is and what becomes of what is done in it', () => {
    expect(readyText('http://127.0.0.1:3000', DEMO_DIR, 'demo')).toBe(['', 'Spanledger is at http://127.0.0.1:3000',
      'Ctrl-C stops it. What you do here is kept in .data/demo, and the next start goes on with it; npm run demo -- --fresh removes it and starts over.'].join('\n'))
  })

  it('says after Ctrl-C what is kept, and how to go on with it or to start over', () => {
    expect(endedText(DEMO_DIR, 'demo')).toBe('Stopped. What was done is kept in .data/demo: npm run demo goes on with it, npm run demo -- --fresh removes it and starts over.')
    expect(endedText('elsewhere', null)).toBe(
      'Stopped before the demo was ready. What was loaded so far is kept in elsewhere: npm run demo -- --data elsewhere goes on from there.')
  })

  it('says of a utility of somebody\'s own that it is served as it is, and never offers to remove it', () => {
    const ready = readyText('http://127.0.0.1:3000', '/tmp/own', 'own')
    expect(ready).toContain('/tmp/own holds its own utility; served as it is')
    for (const text of [ready, endedText('/tmp/own', 'own')]) {
      expect(text).toContain('kept in /tmp/own')
      expect(text).not.toContain('--fresh')
    }
    expect(ownUtilityText('/tmp/own')).toContain('npm run demo -- --data /tmp/own serves it as it is')
  })
})
