import { DataTable } from '@/components/ui/data-table'
import type { ImportReport } from '@/lib/contract/contract'
import { many } from './words'
import css from './file-facts.module.css'

/** What concerns the file as a whole: how its bytes were read, and which columns nobody understood. */
export function FileFacts({ report }: { report: ImportReport }) {
  const { notes, ignored_columns: ignored } = report
  if (notes.length === 0 && ignored.length === 0) return null
  return (
    <section aria-labelledby="file-facts-title" className={css.facts}>
      <h2 id="file-facts-title">The file</h2>
      {notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      {ignored.length > 0 && (
        <details open={ignored.length <= 8}>
          <summary>{many(ignored.length, 'column was', 'columns were')} not understood and not read</summary>
          <DataTable caption="Columns that were not read">
            <thead>
              <tr>
                <th scope="col">Column</th>
                <th scope="col">First values</th>
              </tr>
            </thead>
            <tbody>
              {ignored.map(({ column, samples }) => (
                <tr key={column}>
                  <th scope="row">{column}</th>
                  <td>{samples.length === 0 ? 'empty' : samples.join(', ')}</td>
                </tr>
              ))}
            </tbody>
          </DataTable>
          <p>Where one of them matters, undo this import first, then drop the file again and choose a field for it.</p>
        </details>
      )}
    </section>
  )
}
