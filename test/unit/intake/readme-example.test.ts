import fs from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readFile, recordsOf } from '@/test/fixtures/intake/read-file'

/** The file of readings that the README shows, as it stands there. */
const example = /```\n(taken_at,.*?)```/s.exec(fs.readFileSync('README.md', 'utf8'))?.[1] ?? ''

describe('the file of readings that the README shows', () => {
  it('is read whole, for what it is', async () => {
    const file = await readFile(example, 'readings')
    expect(recordsOf(file).map(({ circuitLabel, spliceLabel, lon, sideAUohm, conductorUohm }) => [circuitLabel, spliceLabel, lon, sideAUohm, conductorUohm])).toEqual([
      ['2310', 'SP-0412', null, 9.6, 21.3], ['2310', null, -113.9982, 14.2, 21.4],
    ])
    expect(file.issues).toEqual([])
  })
})
