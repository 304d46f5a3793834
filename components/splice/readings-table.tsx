import type { ReactNode } from 'react'
import { findingWords } from '@/lib/condition/words'
import type { ReadingJson } from '@/lib/contract/contract'
import { DataTable, num } from '@/components/ui/data-table'
import { Quantity } from '@/components/ui/states'
import { currentMeasure, lengthMeasure, resistanceMeasure, temperatureMeasure, type Measure, type UnitSystem } from '@/lib/units/format'
import { spell } from '@/lib/units/spelling'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { RawRow } from './raw-row'
import { howMeasured, infraredFigures, resistanceFigures } from './reading-figures'
import css from './readings-table.module.css'

interface Props {
  readings: ReadingJson[]
  system: UnitSystem
  timeZone: string
  /** The pictures have notes of their own, with the same figures: on paper those stand for both. */
  picturesNoted?: boolean
}

const NONE = <span className="muted" aria-label="not measured">–</span>
const shown = (value: number | null, as: (v: number) => Measure): ReactNode => (value === null ? NONE : <Quantity {...as(value)} />)
const bare = (value: number | null, as: (v: number) => Measure): ReactNode => (value === null ? NONE : as(value).value)

/** Every reading of the splice, newest first, as it was read; the file's own row one press away. */
export function ReadingsTable({ readings, system, timeZone, picturesNoted = false }: Props) {
  const newestFirst = [...readings].sort((a, b) => (b.taken_at ?? '').localeCompare(a.taken_at ?? ''))
  const resistance = newestFirst.filter((r) => r.kind === 'resistance')
  const infrared = newestFirst.filter((r) => r.kind === 'infrared')
  const visual = newestFirst.filter((r) => r.kind === 'visual')
  return (
    <>
      {resistance.length > 0 && (
        <DataTable caption="Resistance readings" brief>
          <thead>
            <tr>
              <th scope="col">Taken</th><th scope="col" className={num}>A µΩ</th><th scope="col" className={num}>B µΩ</th>
              <th scope="col" className={num}>Cond. µΩ</th><th scope="col" className={num}>Span</th>
              <th scope="col" className="no-print">Source</th>
            </tr>
          </thead>
          <tbody>{resistance.map((r) => <ResistanceRow key={r.id} reading={r} system={system} timeZone={timeZone} />)}</tbody>
        </DataTable>
      )}
      {infrared.length > 0 && (
        <DataTable caption="Infrared readings" brief className={picturesNoted ? 'no-print' : undefined}>
          <thead>
            <tr>
              <th scope="col">Taken</th><th scope="col" className={num}>Splice</th><th scope="col" className={num}>Conductor</th>
              <th scope="col" className={num}>Air</th><th scope="col" className={num}>Current A</th>
              <th scope="col" className="no-print">Source</th>
            </tr>
          </thead>
          <tbody>{infrared.map((r) => <InfraredRow key={r.id} reading={r} system={system} timeZone={timeZone} />)}</tbody>
        </DataTable>
      )}
      {visual.length > 0 && (
        <DataTable caption="Visual findings" brief>
          <thead><tr><th scope="col">Taken</th><th scope="col">Findings</th><th scope="col" className="no-print">Source</th></tr></thead>
          <tbody>
            {visual.map((r) => (
              <tr key={r.id}>
                <Taken reading={r} system={system} timeZone={timeZone} />
                <td>{spell([r.fields.findings].flat().filter(Boolean).map((f) => findingWords(String(f))).join(', ') || 'nothing', system)}</td>
                <td className="no-print"><RawRow reading={r} /></td>
              </tr>
            ))}
          </tbody>
        </DataTable>
      )}
    </>
  )
}

function Taken({ reading, system, timeZone }: { reading: ReadingJson; system: UnitSystem; timeZone: string }) {
  const how = howMeasured(reading, system)
  const atMs = reading.taken_at === null ? null : Date.parse(reading.taken_at)
  return (
    <th scope="row" title={atMs === null ? undefined : formatDateTime(atMs, timeZone)}>
      <span className={css.day}>{atMs === null ? 'time not known' : formatDate(atMs, timeZone)}</span>
      <span className={css.survey}>{reading.survey}{reading.fields.after_repair === true ? ', after repair' : ''}</span>
      {how && <span className={css.how}>{how}</span>}
    </th>
  )
}

function ResistanceRow({ reading, system, timeZone }: { reading: ReadingJson; system: UnitSystem; timeZone: string }) {
  const f = resistanceFigures(reading)
  return (
    <tr>
      <Taken reading={reading} system={system} timeZone={timeZone} />
      <td className={num}>{bare(f.sideAUohm, resistanceMeasure)}</td>
      <td className={num}>{bare(f.sideBUohm, resistanceMeasure)}</td>
      <td className={num}>{bare(f.conductorUohm, resistanceMeasure)}</td>
      <td className={num}>{shown(f.electrodeSpanM, (v) => lengthMeasure(v, system))}</td>
      <td className="no-print"><RawRow reading={reading} /></td>
    </tr>
  )
}

function InfraredRow({ reading, system, timeZone }: { reading: ReadingJson; system: UnitSystem; timeZone: string }) {
  const f = infraredFigures(reading)
  return (
    <tr>
      <Taken reading={reading} system={system} timeZone={timeZone} />
      <td className={num}>{shown(f.spliceTempC, (v) => temperatureMeasure(v, system))}</td>
      <td className={num}>{shown(f.conductorTempC, (v) => temperatureMeasure(v, system))}</td>
      <td className={num}>{shown(f.ambientC, (v) => temperatureMeasure(v, system))}</td>
      <td className={num}>{bare(f.lineCurrentA, currentMeasure)}</td>
      <td className="no-print"><RawRow reading={reading} /></td>
    </tr>
  )
}
