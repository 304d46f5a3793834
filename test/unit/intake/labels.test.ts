import { describe, expect, it } from 'vitest'
import { KINDS } from '@/lib/intake/kinds/kinds'
import { fieldLabel } from '@/lib/intake/kinds/labels'
import { IMPORT_KINDS } from '@/lib/intake/types'

describe('the words of fields on screens', () => {
  it.each(IMPORT_KINDS)('are plain and one each: %s', (kind) => {
    const labels = KINDS[kind].fields.map(({ name }) => fieldLabel(kind, name).label)
    for (const label of labels) expect(label).toMatch(/^[A-Z][^_]*$/)
    expect(new Set(labels).size).toBe(labels.length)
  })

  it('follow the kind where a name means two things', () => {
    expect(fieldLabel('readings', 'kind').label).toBe('Kind of reading')
    expect(fieldLabel('splices', 'kind').label).toBe('Kind of fitting')
    expect(fieldLabel('readings', 'side_a_uohm')).toEqual({ label: 'Side A resistance', group: 'Resistance' })
  })
})
