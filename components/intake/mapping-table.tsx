'use client'
import { DataTable } from '@/components/ui/data-table'
import { NativeSelect } from '@/components/ui/native-select'
import { useLocalText } from '@/components/ui/use-local-text'
import type { MappingJson, PreviewColumn } from '@/lib/contract/intake'
import { KINDS, findField, templateFields } from '@/lib/intake/kinds/kinds'
import { UNIT_KEYS, unitLabel, unitsAgree } from '@/lib/units/convert'
import { BASIS_WORDS, type Kind } from './words'
import css from './mapping.module.css'

const NOT_USED = '-'
type Basis = PreviewColumn['basis']

/** One column of the file: its name and samples, the field it fills, the unit it speaks in, and why that was thought. */
export function MappingTable({
  kind,
  columns,
  mapping,
  onColumn,
}: {
  kind: Kind
  columns: PreviewColumn[]
  mapping: MappingJson
  onColumn(column: string, change: { field?: string | null; unit?: string | undefined }): void
}) {
  const local = useLocalText()
  const chosen = new Map(mapping.columns.map((c) => [c.column, c]))
  const doubles = doublyUsed(kind, mapping)
  return (
    <>
      <MissingFields kind={kind} mapping={mapping} />
      <DataTable caption="Columns of the file" className={css.mapping}>
        <thead>
          <tr>
            <th scope="col">Column</th>
            <th scope="col">Used as</th>
            <th scope="col">In</th>
            <th scope="col">Because</th>
          </tr>
        </thead>
        <tbody>
          {columns.map((c) => {
            const use = chosen.get(c.column) ?? { column: c.column, field: c.field, unit: c.unit ?? undefined, basis: c.basis }
            const doubled = use.field !== null && doubles.has(use.field)
            return (
              <tr key={c.column} className={use.field === null ? css.unused : undefined}>
                <th scope="row">
                  <span className={css.column}>{c.column}</span>
                  <span className={css.samples}>{c.samples.length === 0 ? 'empty' : c.samples.slice(0, 3).join(', ')}</span>
                </th>
                <td data-label="Used as">
                  <NativeSelect
                    label={`${c.column} is used as`}
                    quiet={use.field === null}
                    value={use.field ?? NOT_USED}
                    aria-invalid={doubled || undefined}
                    onChange={(e) => onColumn(c.column, { field: e.target.value === NOT_USED ? null : e.target.value })}
                  >
                    <option value={NOT_USED}>not used</option>
                    <FieldOptions kind={kind} />
                  </NativeSelect>
                </td>
                <td data-label="In">
                  <UnitChoice
                    kind={kind}
                    column={c.column}
                    field={use.field}
                    unit={use.unit}
                    onUnit={(unit) => onColumn(c.column, { unit })}
                  />
                </td>
                <td data-label="Because" className={doubled ? css.doubled : css.basis}>
                  {doubled ? `${use.field} is chosen twice` : local(BASIS_WORDS[(use.basis ?? 'none') as Basis])}
                </td>
              </tr>
            )
          })}
        </tbody>
      </DataTable>
    </>
  )
}

function FieldOptions({ kind }: { kind: Kind }) {
  const local = useLocalText()
  const template = templateFields(kind)
  const beyond = KINDS[kind].fields.filter((f) => !template.includes(f))
  return (
    <>
      {template.map((f) => (
        <option key={f.name} value={f.name} title={local(f.description)}>
          {f.name}
        </option>
      ))}
      {beyond.length > 0 && (
        <optgroup label="Beyond the template">
          {beyond.map((f) => (
            <option key={f.name} value={f.name} title={local(f.description)}>
              {f.name}
            </option>
          ))}
        </optgroup>
      )}
    </>
  )
}

/** Only units of what the field measures; nothing where it measures nothing. */
function UnitChoice({
  kind,
  column,
  field,
  unit,
  onUnit,
}: {
  kind: Kind
  column: string
  field: string | null
  unit: string | undefined
  onUnit(unit: string): void
}) {
  const own = field === null ? undefined : findField(kind, field)?.unit
  if (own === undefined) return null
  return (
    <NativeSelect label={`Unit of ${column}`} value={unit ?? own} onChange={(e) => onUnit(e.target.value)}>
      {UNIT_KEYS.filter((u) => unitsAgree(u, own)).map((u) => (
        <option key={u} value={u}>
          {unitLabel(u)}
        </option>
      ))}
    </NativeSelect>
  )
}

function MissingFields({ kind, mapping }: { kind: Kind; mapping: MappingJson }) {
  const used = new Set(mapping.columns.map((c) => c.field))
  const missing = KINDS[kind].fields.filter((f) => f.required && !used.has(f.name)).map((f) => f.name)
  if (missing.length === 0) return null
  return (
    <p className={css.missing}>
      No column is used as <strong>{missing.join(', ')}</strong>. {KINDS[kind].label} need {missing.length === 1 ? 'it' : 'them'}:
      choose below, or choose another kind of file.
    </p>
  )
}

/** Fields that two columns claim. A date and a time may share one moment: they are joined. */
function doublyUsed(kind: Kind, mapping: MappingJson): Set<string> {
  const seen = new Set<string>()
  const doubles = new Set<string>()
  for (const { field } of mapping.columns) {
    if (field === null || findField(kind, field)?.type === 'instant') continue
    if (seen.has(field)) doubles.add(field)
    seen.add(field)
  }
  return doubles
}
