import { RequestFailed, fetchJson } from '@/components/ui/fetch-json'
import { importPreview, type ImportPreview, type MappingJson, type PreviewRow } from '@/lib/contract/intake'
import { UPLOAD_LIMIT_BYTES } from '@/lib/contract/api'
import { findField } from '@/lib/intake/kinds/kinds'
import { READ_OTHERWISE } from '@/lib/intake/report/codes'
import { quantityOf } from '@/lib/units/convert'
import { detectHeaderUnit } from '@/lib/units/detect'
import { fileSize, type Kind } from './words'
import { PREVIEW_BYTES } from './upload'

/** The server looks at no more of a file's rows. */
const PREVIEW_ROWS = 50

/** A file somebody has dropped and not yet imported, with what they said about it. */
export interface Draft {
  /** Tells one drop from the next, also of the same file. */
  key: number
  file: File
  /** Null: let the server guess from the columns. */
  kind: Kind | null
  /** Null: the server's guess stands. */
  mapping: MappingJson | null
  /** For rows that name none. Null: nobody has said, and the file's own name serves where no column names it. */
  survey: string | null
  /** What was said of an earlier file with the same columns is left aside; importing the file forgets it. */
  fresh: boolean
}

export const newDraft = (file: File, key: number): Draft => ({ key, file, kind: null, mapping: null, survey: null, fresh: false })

const stem = (name: string): string => name.replace(/\.[^.]+$/, '').trim()

/** The survey of rows that name none: what was typed, else the file's name where no column names surveys. */
export function surveyOf(draft: Draft, mapping: MappingJson): string {
  if (draft.survey !== null) return draft.survey
  return mapping.columns.some((c) => c.field === 'survey') ? '' : (mapping.survey ?? stem(draft.file.name))
}

/** Why this file is refused before a byte of it is sent; null when it may go. */
export function refusalBeforeSending(file: File): RequestFailed | null {
  if (file.size === 0) {
    return new RequestFailed(`${file.name} is empty.`, 'Export it again and check that it has rows.', 0, file.name, 'empty')
  }
  if (file.size > UPLOAD_LIMIT_BYTES) {
    return new RequestFailed(
      `${file.name} has ${fileSize(file.size)}, more than the limit of ${fileSize(UPLOAD_LIMIT_BYTES)} for one file on this page.`,
      'Split the file, or have whoever runs the server import it with the command: npm run import has no limit.',
      0,
      file.name,
      'too-large',
    )
  }
  return null
}

/** The mapping as it is to be used: the guess or the edits, with the survey for rows that name none. */
export function effectiveMapping(draft: Draft, preview: ImportPreview): MappingJson {
  const mapping = draft.mapping ?? preview.mapping
  const survey = surveyOf(draft, mapping)
  return { ...mapping, kind: preview.kind, ...(survey === '' ? {} : { survey }) }
}

/**
 * Why an import would come to nothing, by the rows that were looked at; null where it would not. A row that is not read and is urgent by its own
 * numbers is kept as a call to the control room, so that is not nothing.
 */
export function whyNotImport(rows: readonly PreviewRow[]): string | null {
  if (rows.length === 0 || rows.some(({ becomes }) => becomes.state !== 'rejected' || becomes.own_class)) return null
  const which = rows.length === 1 ? 'The only row' : rows.length < PREVIEW_ROWS ? `None of the ${rows.length} rows` : `None of the first ${rows.length} rows`
  const what = rows.length === 1 ? 'would not be read' : 'would be read'
  if (rows.every(({ issues }) => issues.some(({ code }) => code === READ_OTHERWISE))) return `${which} ${what}: an earlier import holds ${rows.length === 1 ? 'it' : 'them'} already, in other values. Undo that one first.`
  return `${which} ${what}: correct the columns or the file.${rows.length < PREVIEW_ROWS ? '' : ' A dry run looks at every row.'}`
}

/** One column's field or unit changed by a person. */
export function withColumn(
  mapping: MappingJson,
  column: string,
  change: { field?: string | null; unit?: string | undefined },
): MappingJson {
  return {
    ...mapping,
    columns: mapping.columns.map((c) => {
      if (c.column !== column) return c
      const field = change.field === undefined ? c.field : change.field
      const unit = 'unit' in change ? change.unit : change.field === undefined ? c.unit : headerUnit(mapping.kind, column, field)
      return { ...c, field, unit, basis: 'user' }
    }),
  }
}

/** The unit that a header names, where it is one of what the field measures: 'R cond (mΩ)' must not be read as µΩ. */
function headerUnit(kind: Kind, column: string, field: string | null): string | undefined {
  const own = field === null ? undefined : findField(kind, field)?.unit
  return own === undefined ? undefined : (detectHeaderUnit(column, quantityOf(own)) ?? undefined)
}

/** What holds for the whole file, as a person says it. */
export type FileSetting = Pick<MappingJson, 'timeZone' | 'dateOrder' | 'decimalComma'>

/** One setting of the file changed; undefined: what the file tells stands. */
export function withSetting<Name extends keyof FileSetting>(mapping: MappingJson, name: Name, value: FileSetting[Name]): MappingJson {
  const rest = { ...mapping }
  delete rest[name]
  return value === undefined ? rest : { ...rest, [name]: value }
}

/** What a field holds in every row that does not say it; undefined: nothing. */
export function withAlways(mapping: MappingJson, field: string, value: string | undefined): MappingJson {
  const values = Object.fromEntries(Object.entries(mapping.values ?? {}).filter(([name]) => name !== field))
  const rest = { ...mapping }
  delete rest.values
  if (value !== undefined) values[field] = value
  return Object.keys(values).length === 0 ? rest : { ...rest, values }
}

/** Asks what the head of the file would become. Nothing is stored. */
export function askPreview(draft: Draft, signal: AbortSignal): Promise<ImportPreview> {
  const form = new FormData()
  form.set('file_name', draft.file.name)
  if (draft.kind !== null) form.set('kind', draft.kind)
  if (draft.mapping !== null) form.set('mapping', JSON.stringify(draft.mapping))
  if (draft.fresh) form.set('fresh', '1')
  form.set('file', draft.file.slice(0, PREVIEW_BYTES, draft.file.type), draft.file.name)
  return fetchJson('/api/v1/imports/preview', importPreview, { method: 'POST', body: form, signal })
}
