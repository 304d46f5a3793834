import { beforeAll, describe, expect, it } from 'vitest'
import { undoImport } from '@/lib/cases/undo-import'
import { listUrgent } from '@/lib/store/urgent'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

const { taken_at: takenAt, ...untimed } = reading('bad', 450, { side_a_uohm: 60 })

describe('readings without a time', () => {
  it('are said to be undated before anything else that was assumed', async () => {
    const told = await report('readings', csv([untimed]), { survey: 'Walk', dryRun: true })
    expect(told.issues[0]).toMatchObject({ row: 0, severity: 'warning', message: expect.stringMatching(/^File: No column gives the time of the readings/) })
    const dated = await report('readings', csv([{ ...untimed, taken_at: takenAt ?? '' }]), { survey: 'Walk', dryRun: true })
    expect(dated.issues.map(({ message }) => message).join(' ')).not.toContain('No column gives the time')
  })

  it('raise one alarm, also when they are undone and come again with their time', async () => {
    const first = await report('readings', csv([untimed]), { survey: 'Walk' })
    expect((await listUrgent(scope)).map(({ reading_key: key }) => key)).toEqual(['bad'])
    expect((await undoImport(scope, first.import_id, 'tester')).ok).toBe(true)
    await report('readings', csv([{ ...untimed, taken_at: takenAt ?? '' }]), { survey: 'Walk' })
    expect((await listUrgent(scope)).map(({ reading_key: key, withdrawn }) => [key, withdrawn])).toEqual([['bad', null]])
  })
})
