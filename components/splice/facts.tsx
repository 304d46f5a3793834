import { cx } from '@/components/ui/class-names'
import css from '@/components/ui/sheet.module.css'
import type { ReactNode } from 'react'
import { Quantity } from '@/components/ui/states'
import type { SpliceDetail } from '@/lib/contract/contract'
import { dayText } from './age'
import {
  currentMeasure,
  diameterMeasure,
  lengthMeasure,
  lineDistanceMeasure,
  temperatureLimitMeasure,
  type UnitSystem,
} from '@/lib/units/format'

const ASK = 'not known: ask engineering'

/** What is known of the fitting and the line it sits on; what is not known says so where it would matter. */
export function Facts({ detail: d, system }: { detail: SpliceDetail; system: UnitSystem }) {
  const rows: { name: string; value: ReactNode; long?: 'on-paper' | 'always' }[] = [
    { name: 'Line distance', value: <Quantity {...lineDistanceMeasure(d.line_distance_m, system)} /> },
    ...(d.voltage_kv === null ? [{ name: 'Voltage', value: ASK }] : []), // known, it stands in the head
    { name: 'Conductor', value: conductorText(d) },
    ...(d.installed_on ? [{ name: 'Installed', value: dayText(d.installed_on) }] : []),
    ...(d.batch ? [{ name: 'Batch', value: d.batch }] : []),
    {
      name: 'Section rating', long: 'on-paper',
      value: d.rating_a === null ? ASK : <Rating ratingA={d.rating_a} maxOperatingC={d.max_operating_c} system={system} />,
    },
  ]
  if (d.barrel_od_mm !== null || d.barrel_length_mm !== null) rows.push({ name: 'Barrel', long: 'on-paper', value: <Barrel detail={d} system={system} /> })
  rows.push({ name: 'Fitting', long: 'always', value: [d.kind, d.fitting_type].filter(Boolean).join(', ') })
  if (d.found_by_survey) rows.push({ name: 'On record', value: "found by survey, not in the utility's own list" })
  return (
    <dl className={cx(css.facts, css.pairs)}>
      {rows.map(({ name, value, long }) => (
        <div key={name} style={{ display: 'contents' }} data-long={long}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
}

function conductorText(d: SpliceDetail): string {
  if (!d.conductor) return ASK
  return d.subconductors > 1 ? `${d.conductor}, ${d.subconductors} subconductors` : d.conductor
}

function Rating({ ratingA, maxOperatingC, system }: { ratingA: number; maxOperatingC: number | null; system: UnitSystem }) {
  return (
    <span>
      <Quantity {...currentMeasure(ratingA)} /> per phase
      {maxOperatingC !== null && (
        <>
          {' '}
          at <Quantity {...temperatureLimitMeasure(maxOperatingC, system)} />
        </>
      )}
    </span>
  )
}

function Barrel({ detail: d, system }: { detail: SpliceDetail; system: UnitSystem }) {
  return (
    <span>
      {d.barrel_od_mm !== null && (
        <>
          diameter <Quantity {...diameterMeasure(d.barrel_od_mm, system)} />
        </>
      )}
      {d.barrel_od_mm !== null && d.barrel_length_mm !== null && ', '}
      {d.barrel_length_mm !== null && (
        <>
          length <Quantity {...lengthMeasure(d.barrel_length_mm / 1000, system)} />
        </>
      )}
    </span>
  )
}
