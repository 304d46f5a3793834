import { describe, expect, it } from 'vitest'
import { foldNotes } from '@/components/intake/draft-notes'
import { readFile } from '@/test/fixtures/intake/read-file'

describe('remarks on how a file is understood', () => {
  it('stand as they are where they are few', () => {
    expect(foldNotes(['a', 'b', 'c'])).toEqual([['a', 'b', 'c'], []])
  })

  it('fold away all but two, and never what nothing in the file bears out', async () => {
    const { notes } = await readFile('Date,Ckt,Side A,Side B,R cond,Ambient (smoots)\n03/04/2026 10:00,X,9,10,21,20\n', 'readings')
    const [first, rest] = foldNotes(notes)
    expect([...first, ...rest].sort()).toEqual([...notes].sort())
    expect(first.filter((note) => note.includes("'(smoots)' in its header is none that is known"))).toHaveLength(1)
    expect(first.filter((note) => note.startsWith('Nothing in the file tells whether days or months come first'))).toHaveLength(1)
    expect(first).toHaveLength(4)
    expect(rest.length).toBeGreaterThan(1)
  })
})
