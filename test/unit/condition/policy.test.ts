import { describe, expect, it } from 'vitest'
import { defaultPolicy, POLICY_WORDS, policySchema } from '@/lib/condition'

const leaves = (value: unknown, path: string): string[] => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return [path]
  return Object.entries(value).flatMap(([key, inner]) => leaves(inner, path === '' ? key : `${path}.${key}`))
}

describe('the policy', () => {
  it('has a default for everything', () => {
    expect({ ...policySchema.parse({}), version: 0 }).toEqual(defaultPolicy)
    expect(defaultPolicy.edges).toEqual({ watch: 1, degraded: 1.3, urgent: 1.85, critical: 2.75 })
    expect(defaultPolicy.pRules).toEqual({ watch: 0.5, degraded: 0.5, urgent: 0.3, critical: 0.2 })
  })

  it('fills what a partial one leaves out', () => {
    expect(policySchema.parse({ instrument: { limitRel: 0.01 } }).instrument).toMatchObject({ limitRel: 0.01, limitOffsetUohm: 1 })
  })

  it('refuses edges that do not rise, with a sentence', () => {
    const parsed = policySchema.safeParse({ edges: { watch: 1, degraded: 0.9, urgent: 1.85, critical: 2.75 } })
    expect(parsed.success).toBe(false)
    expect(parsed.error?.issues[0]?.message).toBe('The edges must rise from watch to critical.')
  })

  it('refuses to let one reading clear urgent or critical', () => {
    expect(policySchema.safeParse({ hold: { independentReadings: 1 } }).success).toBe(false)
  })

  it('says of a class edge what its default is, and nothing that a changed one would make untrue', () => {
    const edges = POLICY_WORDS.filter(({ path }) => /^edges(Above75)?\./.test(path) && path !== 'edgesAbove75.watch')
    expect(edges).toHaveLength(7)
    for (const { path, meaning } of edges) expect(meaning, path).toMatch(/[tT]he default is /)
  })

  it('has words for every setting and no others, each with a source', () => {
    expect(POLICY_WORDS.map(({ path }) => path)).toEqual(leaves(policySchema.parse({}), ''))
    for (const word of POLICY_WORDS) {
      expect(word.label.length).toBeGreaterThan(3)
      expect(word.meaning).toMatch(/\.$/)
      expect(word.source.length).toBeGreaterThan(10)
    }
  })
})
