import { DataTable, num } from '@/components/ui/data-table'
import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import type { CircuitJson } from '@/lib/contract/api'
import { currentMeasure, lengthMeasure, temperatureLimitMeasure, type UnitSystem } from '@/lib/units/format'

const NotKnown = () => <span className="muted">not known</span>

/** What each section is made of and what it may carry; what is not known says so. */
export function SectionsTable({ circuit, sections, system }: { circuit: string; sections: CircuitJson['sections']; system: UnitSystem }) {
  return (
    <DataTable caption={`Sections of ${circuit}`}>
      <thead>
        <tr>
          <th scope="col">Section</th>
          <th scope="col">Conductor</th>
          <th scope="col" className={num}>
            Rating
          </th>
          <th scope="col" className={num}>
            Emergency
          </th>
          <th scope="col" className={num}>
            Length
          </th>
        </tr>
      </thead>
      <tbody>
        {sections.map((s) => (
          <tr key={s.id}>
            <th scope="row">
              {s.name}
              <span className={css.under}>{[s.from, s.to].filter(Boolean).join(' to ') || `${s.structure_count} structures`}</span>
            </th>
            <td>
              {s.conductor ?? <NotKnown />}
              {s.subconductors > 1 ? ` × ${s.subconductors}` : ''}
            </td>
            <td className={num}>
              {s.rating_a === null ? <NotKnown /> : <Quantity {...currentMeasure(s.rating_a)} />}
              {s.max_operating_c !== null && (
                <span className={css.under}>
                  at <Quantity {...temperatureLimitMeasure(s.max_operating_c, system)} />
                </span>
              )}
            </td>
            <td className={num}>{s.rating_emergency_a === null ? <NotKnown /> : <Quantity {...currentMeasure(s.rating_emergency_a)} />}</td>
            <td className={num}>
              <Quantity {...lengthMeasure(s.length_m, system)} />
            </td>
          </tr>
        ))}
      </tbody>
    </DataTable>
  )
}
