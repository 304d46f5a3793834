import { describe, expect, it } from 'vitest'
import { readFile } from '@/test/fixtures/intake/read-file'

const line = (conductor: string) => JSON.stringify({
  type: 'FeatureCollection',
  features: [{ type: 'Feature', geometry: { type: 'LineString', coordinates: [[-114, 47], [-114.01, 47.01]] }, properties: { circuit: 'C-1', conductor } }],
})

describe('the conductor of a line', () => {
  it('is named where the table does not hold it, with the nearest that it does', async () => {
    const { issues, read } = await readFile(line('Drkae'), 'lines', { fileName: 'lines.geojson' })
    expect(read).toBe(1)
    expect(issues).toMatchObject([{ severity: 'warning', field: 'conductor', value: 'Drkae', code: 'unknown-conductor', remedy: expect.stringContaining('Drake') }])
    expect(issues[0]?.message).toContain("'Drkae' is no conductor of the table")
  })

  it.each(['Drake', 'drake', '795 kcmil 26/7 ACSR Drake', ''])('is passed over where it is %j', async (conductor) => {
    expect((await readFile(line(conductor), 'lines', { fileName: 'lines.geojson' })).issues).toEqual([])
  })
})
