import type { UndoneImport } from '@/lib/contract/api'
import type { ImportReport, ImportStatus } from '@/lib/contract/contract'
import type { RestingOnImport } from '@/lib/contract/resting'
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
export function undoWords(report: ImportReport, resting?: RestingOnImport): string[] {
  const again = report.already_held
  const held =
    again > 0 ? [`${many(again, 'row was', 'rows were')} here before this import and ${again === 1 ? 'stays' : 'stay'}.`] : []
  if (report.kind !== 'readings') {
    if (resting && resting.blockers.length > 0) return restingWords(resting)
    return [
      ...restingWords(resting),
      `Withdraws what this import added: ${many(report.read - report.already_held - (report.repeated ?? 0), 'row')} of ${kindLabel(report.kind).toLowerCase()}.`,
      ...held,
    ]
  }
  const fresh = report.read - report.already_held - (report.repeated ?? 0)
  return [
    `Withdraws ${many(fresh, 'reading')}: they stay on file but count for nothing.`,
    report.new_splices === 0
      ? 'No splice goes.'
      : `The ${many(report.new_splices, 'splice')} found by it go, except those another import or a person has used since.`,
    'Splices are assessed again from what remains. A class does not fall from urgent or critical because of it.',
    ...(report.urgent.some((r) => r.acknowledged_at === null && !report.met_notices?.includes(r.notice_id)) ? ['Its alarms stay until the control room is told.'] : []),
    ...held,
  ]
}

const KINDS_ON_WHICH_OTHERS_REST: ReadonlySet<Kind> = new Set(['lines', 'structures', 'splices', 'phasing'])

/** Whether other data lies on what a file of this kind brings: the network itself, and not what was found on it. */
export const isNetwork = (kind: Kind): boolean => KINDS_ON_WHICH_OTHERS_REST.has(kind)

const SHOWN_BLOCKERS = 4

/** What rests on an import, before anybody undoes it. */
export function restingWords(resting: RestingOnImport | undefined): string[] {
  if (!resting) return []
  const { readings, blockers } = resting
  const lie = readings === 0 ? 'No reading rests on it.' : `${many(readings, 'reading rests', 'readings rest')} on it.`
  if (blockers.length === 0) return [lie]
  const named = blockers.slice(0, SHOWN_BLOCKERS).map(({ what, count: n, import_id: id, file_name: file }) => (
    `${count(n)} ${n === 1 ? what.replace(/s$/, '') : what} ${id === null ? 'made by people' : `of import ${id} (${file ?? ''})`}`))
  const rest = blockers.length - named.length
  return [lie, `It cannot be undone before what lies on it: ${named.join(', ')}${rest > 0 ? ` and ${count(rest)} more` : ''}. Undo those imports first, the last one first.`]
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
  return `${said} ${stay} urgent or critical, held by a reading that was withdrawn: an undo clears no class. A named engineer does, on the sheet and with a reason, or independent good readings.`
}

/** Whether what the file holds was seen on a survey; of the others its name is that of the file alone. */
export const isOfSurvey = ({ kind }: Pick<ImportStatus, 'kind'>): boolean => kind === 'readings' || kind === 'extents'
