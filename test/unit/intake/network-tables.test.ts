import { describe, expect, it } from 'vitest'
import { readFile, recordsOf } from '@/test/fixtures/intake/read-file'

describe('structures', () => {
  it('become records, ids as typed, aliases apart', async () => {
    const file = await readFile(
      'circuit,section,structure,lon,lat,line_distance_m,structure_type,aliases\n'
        + 'KF-1,main,045,-112,47,1200,suspension,45;12/3\nKF-2,,045,-112,47,,,\n', 'structures',
    )
    expect(file.issues).toEqual([])
    expect(recordsOf(file)).toEqual([
      {
        recordType: 'structure', rowNo: 1, rawRow: 'KF-1,main,045,-112,47,1200,suspension,45;12/3', circuit: 'KF-1', section: 'main',
        structure: '045',
        lon: -112, lat: 47, lineDistanceM: 1200, structureType: 'suspension', aliases: ['45', '12/3'],
      },
      {
        recordType: 'structure', rowNo: 2, rawRow: 'KF-2,,045,-112,47,,,', circuit: 'KF-2', section: null, structure: '045', lon: -112,
        lat: 47,
        lineDistanceM: null, structureType: null, aliases: [],
      },
    ])
  })

  it('that stand nowhere, or have no number, are rejected', async () => {
    const file = await readFile(
      'circuit,structure,lon,lat,line_distance_m\nKF-1,1,,,\n,2,,,300\nKF-1,,-112,47,\nKF-1,4,0,0,\nKF-1,5,,,300\n', 'structures'
    )
    expect(file.issues.map((issue) => [issue.row, issue.severity, issue.code])).toEqual([
      [1, 'error', 'structure-nowhere'], [2, 'error', 'structure-nowhere'], [3, 'error', 'required'], [4, 'warning', 'position-zero'],
      [4, 'error', 'structure-nowhere'],
    ])
    expect(file.issues[2]).toMatchObject({ field: 'structure', message: 'Row 3, line 4, structure: \'\' is empty, and every row needs structure.' })
    expect(file).toMatchObject({ read: 1, rejected: 4 })
  })

  it('of one number and circuit may not stand in two places', async () => {
    const file = await readFile(
      'circuit,structure,lon,lat\nKF-1,1,-112,47\nKF-1,1,-112,47\nKF-1,1,-112.5,47\n,1,-113,47\n,1,-114,47\n', 'structures'
    )
    expect(file.outcomes.map((outcome) => outcome.state)).toEqual(['read', 'duplicate', 'rejected', 'read', 'read'])
  })
})

describe('splices', () => {
  it('become records', async () => {
    const file = await readFile(
      'splice_id,circuit,structure_back,structure_ahead,line_distance_m,phase,position,kind,barrel_od_mm,installed_on,removed_on\n'
        + '0412,KF-1,045,046,,L2,Top,Dead End,47.6,6/15/1998,\n', 'splices',
    )
    expect(file.issues).toEqual([])
    expect(recordsOf(file)[0]).toMatchObject({
      recordType: 'splice', spliceId: '0412', circuit: 'KF-1', structureBack: '045', phase: 'B', position: 'top', kind: 'dead-end',
      barrelOdMm: 47.6,
      installedOn: '1998-06-15', removedOn: null, lon: null,
    })
  })

  it('are full-tension splices where nothing else is said, and that is told', async () => {
    const file = await readFile('splice_id,circuit,line_distance_m\n1,KF-1,300\n', 'splices')
    expect(recordsOf(file)[0]?.kind).toBe('full-tension splice')
    expect(file.notes.join()).toContain('a full-tension splice was taken')
  })

  it('that lie nowhere, or of an unknown kind, are rejected', async () => {
    const file = await readFile('splice_id,circuit,structure_back,kind\n1,KF-1,,\n2,KF-1,045,glue\n3,,045,\n', 'splices')
    expect(file.issues.map((issue) => [issue.row, issue.code])).toEqual([[1, 'splice-nowhere'], [2, 'unknown-word'], [3, 'required']])
  })

  it('of one label and circuit may not differ', async () => {
    const file = await readFile('splice_id,circuit,structure_back\n1,KF-1,045\n1,KF-1,046\n1,KF-2,046\n,KF-1,045\n,KF-1,045\n', 'splices')
    expect(file.outcomes.map((outcome) => outcome.state)).toEqual(['read', 'rejected', 'read', 'read', 'read'])
    expect(file.issues[0]?.message).toBe('Row 2, line 3, splice_id: \'KF-1 1\' stood in row 1, line 2 already, with other values.')
  })

  it('removed before they were installed are told', async () => {
    const file = await readFile('splice_id,circuit,structure_back,installed_on,removed_on\n1,KF-1,045,2001-01-01,1999-01-01\n', 'splices')
    expect(file).toMatchObject({ read: 1, issues: [{ severity: 'warning', code: 'removed-before-installed' }] })
  })

  it('of points take the point', async () => {
    const point = '{"type":"Feature","properties":{"splice_id":"1","circuit":"KF-1"},"geometry":{"type":"Point","coordinates":[-112,47]}}'
    expect(recordsOf(await readFile(point, 'splices', { fileName: 'x.geojson' }))[0]).toMatchObject({ lon: -112, lat: 47 })
  })
})

describe('phasing, crossings and extents', () => {
  it('become records', async () => {
    const phasing = await readFile('circuit,structure_from,structure_to,position,phase\nKF-1,001,058,top,1\n', 'phasing')
    expect(recordsOf(phasing)[0]).toMatchObject(
      { recordType: 'phasing', circuit: 'KF-1', structureFrom: '001', structureTo: '058', position: 'top', phase: 'A' }
    )
    const crossings = await readFile('circuit,line_distance_m,kind,name\nKF-1,8420,Highway,County road 12\n', 'crossings')
    expect(recordsOf(crossings)[0]).toMatchObject({ recordType: 'crossing', lineDistanceM: 8420, kind: 'road', name: 'County road 12' })
    const extents = await readFile(
      'survey,circuit,structure_from,structure_to,surveyed_on,method,result,wind_m_s\n,KF-1,001,058,5/14/2026,infrared,no exception,4\n',
      'extents',
      { mapping: { survey: 'Spring' } },
    )
    expect(recordsOf(extents)[0]).toMatchObject(
      { recordType: 'extent', survey: 'Spring', surveyedOn: '2026-05-14', method: 'infrared', windMS: 4 }
    )
  })

  it('without what they need are rejected by the field\'s name', async () => {
    const phasing = await readFile(
      'circuit,structure_from,structure_to,position,phase\nKF-1,001,058,top,red\nKF-1,001,058,sideways,A\n', 'phasing'
    )
    expect(phasing.issues.map((issue) => [issue.row, issue.severity, issue.field, issue.code])).toEqual([
      [1, 'error', 'phase', 'phase-not-understood'], [2, 'error', 'position', 'unknown-word'],
    ])
    const crossings = await readFile('circuit,line_distance_m,kind\nKF-1,,road\nKF-1,12,moon\n', 'crossings')
    expect(crossings.issues.map((issue) => issue.field)).toEqual(['line_distance_m', 'kind'])
  })

  it('without a column for what they need are rejected row by row', async () => {
    const file = await readFile('circuit,structure_from,structure_to,position\nKF-1,1,2,top\n', 'phasing')
    expect(file.issues).toMatchObject([{ row: 1, field: 'phase', code: 'required' }])
  })
})
