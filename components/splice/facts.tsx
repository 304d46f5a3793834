import css from '@/components/ui/sheet.module.css'
import type { ReactNode } from 'react'
import { Quantity } from '@/components/ui/states'
import type { SpliceDetail } from '@/lib/contract/contract'
import { currentMeasure, diameterMeasure, lengthMeasure, lineDistanceMeasure, temperatureMeasure, voltageMeasure, type UnitSystem } from '@/lib/units/format'

/** What is known of the fitting and the line it sits on; what is not known says so where it would matter. */
export function Facts({ detail: d, system }: { detail: SpliceDetail; system: UnitSystem }) {
  const rows: [string, ReactNode][] = [
    ['Line distance', <Quantity key="l" {...lineDistanceMeasure(d.line_distance_m, system)} />],
    ['Voltage', d.voltage_kv === null ? 'not known' : <Quantity {...voltageMeasure(d.voltage_kv)} />],
    ['Conductor', d.conductor ? `${d.conductor}${d.subconductors > 1 ? `, ${d.subconductors} subconductors` : ''}` : 'not known: ask engineering'],
    ['Section rating', d.rating_a === null ? 'not known: ask engineering' : <span><Quantity {...currentMeasure(d.rating_a)} /> per phase{d.max_operating_c !== null && <> at <Quantity {...temperatureMeasure(d.max_operating_c, system)} /></>}</span>],
    ['Fitting', [d.kind, d.fitting_type].filter(Boolean).join(', ')],
  ]
  if (d.barrel_od_mm !== null || d.barrel_length_mm !== null) {
    rows.push(['Barrel', (
      <span>
        {d.barrel_od_mm !== null && <>diameter <Quantity {...diameterMeasure(d.barrel_od_mm, system)} /></>}
        {d.barrel_od_mm !== null && d.barrel_length_mm !== null && ', '}
        {d.barrel_length_mm !== null && <>length <Quantity {...lengthMeasure(d.barrel_length_mm / 1000, system)} /></>}
      </span>
    )])
  }
  if (d.installed_on) rows.push(['Installed', d.installed_on])
  if (d.batch) rows.push(['Batch', d.batch])
  if (d.found_by_survey) rows.push(['On record', 'found by survey, not in the utility\'s own list'])
  return (
    <dl className={css.facts}>
      {rows.map(([name, value]) => <div key={name} style={{ display: 'contents' }}><dt>{name}</dt><dd>{value}</dd></div>)}
    </dl>
  )
}
