import { DataTable, num } from '@/components/ui/data-table'
import css from '@/components/ui/sheet.module.css'
import own from './sections-table.module.css'
import { Quantity } from '@/components/ui/states'
import type { CircuitJson } from '@/lib/contract/api'
import type { LastLoad } from '@/lib/contract/contract'
import { alongMeasure, currentMeasure, lengthMeasure, temperatureLimitMeasure, type UnitSystem } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'

function LoadCell({ load, timeZone }: { load: LastLoad | null; timeZone: string }) {
  if (load === null) return <NotKnown />
  return (
    <>
      <Quantity {...currentMeasure(load.current_a)} />
      <span className={css.under}>
        {formatDateTime(Date.parse(load.taken_at), timeZone)}
        {load.quality === 'estimated' ? ', estimated' : ''}
      </span>
    </>
  )
}

const NotKnown = () => <span className="muted">not known</span>

interface Props {
  circuit: string
  sections: CircuitJson['sections']
  system: UnitSystem
  timeZone: string
}

/** What each section is made of, what it may carry and what it last carried; what is not known says so. */
export function SectionsTable({ circuit, sections, system, timeZone }: Props) {
  return (
    <DataTable caption={`Sections of ${circuit}`} className={own.sections}>
      <thead>
        <tr>
          <th scope="col">Section</th>
          <th scope="col">Conductor</th>
          <th scope="col" className={num}>
            Rating
          </th>
          <th scope="col" className={num}>
            Last load
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
              <span className={css.under}>emergency {s.rating_emergency_a === null ? 'not known' : <Quantity {...currentMeasure(s.rating_emergency_a)} />}</span>
            </td>
            <td className={num}>
              <LoadCell load={s.last_load} timeZone={timeZone} />
            </td>
            <td className={num}>
              <Quantity {...lengthMeasure(s.length_m, system)} />
              {s.elevation_m !== null && (
                <span className={css.under}>
                  elevation <Quantity {...alongMeasure(s.elevation_m, system)} />
                </span>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </DataTable>
  )
}
