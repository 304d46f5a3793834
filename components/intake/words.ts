import type { UndoneImport } from '@/lib/contract/api'
import type { ImportReport, ImportStatus } from '@/lib/contract/contract'
import type { PreviewColumn, PreviewRow } from '@/lib/contract/intake'
import { KINDS } from '@/lib/intake/kinds/kinds'
import type { ImportKind } from '@/lib/intake/types'

export type Kind = ImportKind

export const kindLabel = (kind: Kind): string => KINDS[kind].label

export const BASIS_WORDS: Record<PreviewColumn['basis'], string> = {
  template: 'template name',
  synonym: 'same meaning',
  remembered: 'as last time',
  user: 'your choice',
  none: 'not recognised',
}

export const BECOMES_WORDS: Record<PreviewRow['becomes']['state'], string> = {
  placed: 'Placed',
  review: 'To review',
  rejected: 'Not read',
  read: 'Read',
}

const PHASE_WORDS: Record<string, string> = {
  reading: 'reading rows',
  placing: 'placing on the lines',
  assessing: 'assessing splices',
  storing: 'storing',
  undoing: 'withdrawing',
}

/** What an import is doing or has come to, in a few words. */
export function stateWords(status: Pick<ImportStatus, 'state' | 'phase' | 'dry_run'>): string {
  switch (status.state) {
    case 'receiving':
      return 'Receiving the file'
    case 'queued':
      return 'Waiting for its turn'
    case 'running':
      return status.phase === null ? 'Running' : capital(PHASE_WORDS[status.phase] ?? status.phase)
    case 'done':
      return status.dry_run ? 'Dry run, nothing kept' : 'Imported'
    case 'failed':
      return 'Failed, nothing kept'
    case 'undone':
      return 'Undone'
    case 'cancelled':
      return 'Cancelled, nothing kept'
  }
}

export const isUnderWay = (state: ImportStatus['state']): boolean => state === 'receiving' || state === 'queued' || state === 'running'

const capital = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1)

export const count = (n: number): string => n.toLocaleString('en-US')
/** '1 row', '1,204 rows'. */
export const many = (n: number, one: string, more = `${one}s`): string => `${count(n)} ${n === 1 ? one : more}`

/** '11 MB', '4.2 MB', in the decimal megabytes of the limit. */
export function fileSize(bytes: number): string {
  if (bytes < 1000) return `${bytes} B`
  if (bytes < 1_000_000) return `${Math.round(bytes / 1000)} kB`
  return `${Number((bytes / 1_000_000).toFixed(1))} MB`
}

/** What undoing would take away, before anybody does it. */
export function undoWords(report: ImportReport): string[] {
  const again = report.already_held
  const held =
    again > 0 ? [`${many(again, 'row was', 'rows were')} here before this import and ${again === 1 ? 'stays' : 'stay'}.`] : []
  if (report.kind !== 'readings') {
    return [
      `Withdraws what this import added: ${many(report.read - report.already_held, 'row')} of ${kindLabel(report.kind).toLowerCase()}.`,
      'What another import, a reading or a person has used since stays.',
      ...held,
    ]
  }
  const fresh = report.read - report.already_held
  return [
    `Withdraws ${many(fresh, 'reading')}: they stay on file but count for nothing.`,
    report.new_splices === 0
      ? 'No splice goes.'
      : `The ${many(report.new_splices, 'splice')} found by it go, except those another import or a person has used since.`,
    'Splices are assessed again from what remains. A class does not fall from urgent or critical because of it.',
    ...(report.urgent.some((r) => r.acknowledged_at === null) ? ['Its alarms stay until the control room is told.'] : []),
    ...held,
  ]
}

/** What an undo took away, and what stands all the same. */
export function undoneWords(undo: NonNullable<UndoneImport['undo']>): string {
  const { readings_withdrawn: readings, splices_removed: splices, held } = undo
  const gone = [
    readings > 0 ? `${many(readings, 'reading')} withdrawn` : '',
    splices > 0 ? `${many(splices, 'splice')} removed` : '',
  ].filter(Boolean)
  const said = gone.length === 0 ? 'What it added is gone.' : `${gone.join(', ')}.`
  if (held.length === 0) return said
  const stay = held.length === 1 ? '1 splice stays' : `${count(held.length)} splices stay`
  return `${said} ${stay} urgent or critical until new readings or an engineer say otherwise.`
}
