'use client'
import { useState } from 'react'
import { DataTable } from '@/components/ui/data-table'
import { NativeSelect } from '@/components/ui/native-select'
import { Segmented } from '@/components/ui/tabs'
import { useLocalText } from '@/components/ui/use-local-text'
import type { MappingJson, PreviewColumn } from '@/lib/contract/intake'
import { KINDS, findField } from '@/lib/intake/kinds/kinds'
import { fieldLabel } from '@/lib/intake/kinds/labels'
import { quantityOf, UNIT_KEYS, unitLabel, unitsAgree } from '@/lib/units/convert'
import { foreignHeaderUnit } from '@/lib/units/foreign'
import { labelOf } from './field-choices'
import { FieldPicker } from './field-picker'
import { BASIS_WORDS, count, type Kind } from './words'
import css from './mapping.module.css'

/** With more columns than this, those that are used and those that are not can be looked at apart. */
const MANY_COLUMNS = 12
type Basis = PreviewColumn['basis']
type Part = 'all' | 'used' | 'unused'

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
  const [part, setPart] = useState<Part>('all')
  const isUsed = (column: string) => (chosen.get(column)?.field ?? null) !== null
  const used = columns.filter((c) => isUsed(c.column)).length
  const shown = columns.filter((c) => part === 'all' || isUsed(c.column) === (part === 'used'))
  return (
    <>
      <MissingFields kind={kind} mapping={mapping} />
      {columns.length > MANY_COLUMNS && (
        <Segmented<Part>
          label="Columns shown"
          size="small"
          className={css.part}
          value={part}
          onValueChange={setPart}
          options={[
            { value: 'all', label: `All ${count(columns.length)} columns` },
            { value: 'used', label: `Used ${count(used)}` },
            { value: 'unused', label: `Not used ${count(columns.length - used)}` },
          ]}
        />
      )}
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
          {shown.map((c) => {
            const use = chosen.get(c.column) ?? { column: c.column, field: c.field, unit: c.unit ?? undefined, basis: c.basis }
            const doubled = use.field !== null && doubles.has(use.field)
            return (
              <tr key={c.column} className={use.field === null ? css.unused : undefined}>
                <th scope="row">
                  <span className={css.column}>{c.column}</span>
                  <span className={css.samples}>{c.samples.length === 0 ? 'empty' : c.samples.slice(0, 3).join(', ')}</span>
                </th>
                <td data-label="Used as">
                  <FieldPicker
                    kind={kind}
                    column={c.column}
                    field={use.field}
                    mapping={mapping}
                    invalid={doubled}
                    onField={(field) => onColumn(c.column, { field })}
                  />
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
                  {doubled ? `${labelOf(kind, use.field)} is chosen twice` : local(BASIS_WORDS[(use.basis ?? 'none') as Basis])}
                </td>
              </tr>
            )
          })}
        </tbody>
      </DataTable>
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
  const foreign = unit === undefined ? foreignHeaderUnit(column, quantityOf(own)) : null
  return (
    <NativeSelect label={`Unit of ${column}`} value={unit ?? (foreign === null ? own : '')} onChange={(e) => onUnit(e.target.value)}>
      {foreign !== null && (
        <option value="" disabled>
          {`${foreign} is not known: choose`}
        </option>
      )}
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
  const { fields, label, needsOneOf } = KINDS[kind]
  const missing = fields.filter((f) => f.required && !used.has(f.name)).map((f) => fieldLabel(kind, f.name).label)
  if (missing.length === 0 && needsOneOf?.every((name) => !used.has(name))) {
    return (
      <p className={css.missing}>
        No column is used as <strong>{needsOneOf.map((name) => fieldLabel(kind, name).label).join(', ')}</strong>. {label} need one of
        them: choose below, or choose another kind of file.
      </p>
    )
  }
  if (missing.length === 0) return null
  return (
    <p className={css.missing}>
      No column is used as <strong>{missing.join(', ')}</strong>. {label} need {missing.length === 1 ? 'it' : 'them'}:
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
