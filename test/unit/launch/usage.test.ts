import { parseArgs, type ParseArgsConfig } from 'node:util'
import { describe, expect, it } from 'vitest'
import { usageSentence } from '@/lib/launch/usage.mjs'

const options: ParseArgsConfig['options'] = { undo: { type: 'string' }, json: { type: 'boolean', short: 'j' } }

/** What is said of arguments that the parser refuses. */
function said(...args: string[]): string {
  try {
    parseArgs({ args, options })
  } catch (e) {
    if (e instanceof Error) return usageSentence('import', e)
  }
  return 'accepted'
}

describe('a command that is called wrongly', () => {
  it('says so in a plain sentence', () => {
    expect(said('--undo')).toBe('--undo needs a value after it. npm run import -- --help says what it takes.')
    expect(said('--undo', '--json')).toBe('--undo needs a value after it. npm run import -- --help says what it takes.')
    expect(said('--json=3')).toBe('--json takes no value. npm run import -- --help says what it takes.')
    expect(said('--surprise')).toBe("Unknown option '--surprise'. npm run import -- --help says what it takes.")
    expect(usageSentence('import', new Error('The disk is full.'))).toBe('The disk is full.')
  })
})
