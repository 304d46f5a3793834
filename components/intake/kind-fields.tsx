'use client'
import { DataTable } from '@/components/ui/data-table'
import { useLocalText } from '@/components/ui/use-local-text'
import { describeKind, type FieldDescription } from '@/lib/intake/report/template'
import type { ImportKind } from '@/lib/intake/types'
import css from './kind-fields.module.css'

/** Everything that is read of one kind of file: each field with its meaning, units, words, the headers taken for it, an example. */
export function KindFields({ kind }: { kind: ImportKind }) {
  const { label, fields } = describeKind(kind)
  const local = useLocalText()
  const recognised = local('Headers recognised')
  return (
    <details className={css.kind}>
      <summary>{label}: fields, units and headers</summary>
      <DataTable caption={`Fields of ${label.toLowerCase()}`} className={css.fields}>
        <thead>
          <tr>
            <th scope="col">Field</th>
            <th scope="col">Meaning</th>
            <th scope="col">Units or words</th>
            <th scope="col">{recognised}</th>
            <th scope="col">Example</th>
          </tr>
        </thead>
        <tbody>
          {fields.map((field) => (
            <tr key={field.name}>
              <th scope="row">
                {field.name}
                {field.required && <span>every row needs it</span>}
              </th>
              <td data-label="Meaning">{local(field.description)}</td>
              <td data-label="Units or words">{unitsOrWords(field)}</td>
              <td data-label={recognised}>{headers(field)}</td>
              <td data-label="Example">{field.example}</td>
            </tr>
          ))}
        </tbody>
      </DataTable>
    </details>
  )
}

function unitsOrWords({ units, range, words }: FieldDescription): string {
  if (units.length > 0) return `${units.join(', ')}${range === null ? '' : `; ${range} ${units[0]}`}`
  return words.length > 0 ? words.join(', ') : (range ?? '')
}

const headers = ({ headers: all, headers_with_unit: beside }: FieldDescription): string =>
  all.slice(1).join(', ') + (beside.length > 0 ? `; beside a unit also ${beside.join(', ')}` : '')
