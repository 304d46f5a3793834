'use client'
import { useMemo, useRef } from 'react'
import Link from 'next/link'
import calculator from '@/components/calculator/calculator.module.css'
import { Choice } from '@/components/ui/choice'
import { NumberField } from '@/components/calculator/number-field'
import { rangeFault, shownText } from '@/components/calculator/numbers'
import { Part } from '@/components/calculator/part'
import { Button } from '@/components/ui/button'
import { Chooser } from '@/components/ui/chooser'
import { asSentences } from '@/components/ui/fetch-json'
import { Icon } from '@/components/ui/icons'
import { useNetworkState } from '@/components/ui/network-state'
import { useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import { PrintFoot, PrintHead, type PrintFootProps } from '@/components/ui/print'
import sheet from '@/components/ui/sheet.module.css'
import { EmptyState, ErrorState, Skeleton } from '@/components/ui/states'
import { sunOff } from '@/lib/condition/loading/daylight'
import type { Policy } from '@/lib/condition/policy'
import { formatOffset, formatTemperatureLimit, formatWind } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { circuitsAsked } from './address'
import { FLIGHT_LOADS, useFlight, type FlightInputs, type PutFlight } from './flight-address'
import { flightCsv } from './flight-csv'
import { flightRows, type FlightRow } from './flight-model'
import { FlightTable } from './flight-table'
import { oldLoadText, showsOn } from './flight-words'
import { LoadingHead } from './loading-head'
import { MomentField } from '@/components/ui/moment-field'
import { AIR, DISTANCE, IFOV, NETD, SHARE, WIND } from './numbers'
import { Peek } from './peek'
import { useSections } from './queries'
import { SliderField } from './slider-field'
import css from './loading.module.css'

const SKY_WORDS = { none: 'Night, no sun', diffuse: 'Under cloud', direct: 'Direct sun' } as const
const LOAD_OPTIONS = FLIGHT_LOADS.map((value) => ({ value, label: { last: 'Last known load', rating: 'The section’s rating' }[value] }))

/** Which sections are worth an infrared flight today, and what it would take for the rest. */
export function FlightScreen({ policy, mark, print }: { policy: Policy; mark: string; print: PrintFootProps }) {
  const { asked: inputs, put } = useFlight()
  const [system] = useUnitSystem()
  const timeZone = useTimeZone()
  const state = useNetworkState()
  const sections = useSections(state.data?.data_version)
  const circuits = useMemo(() => [...new Map(sections.data?.map((one) => [one.circuit_id, { ...one, id: one.circuit_id, name: one.circuit }]) ?? []).values()], [sections.data])
  const { ids, unknown } = useMemo(() => circuitsAsked(inputs.circuit, circuits), [inputs.circuit, circuits])
  // A name that no circuit has asks for none, never for all.
  const chosen = useMemo(
    () => sections.data?.filter(({ circuit_id: id }) => (ids.length === 0 && unknown.length === 0) || ids.includes(id)) ?? null,
    [sections.data, ids, unknown],
  )
  const fault = ([[inputs.air, AIR], [inputs.wind, WIND], [inputs.share, SHARE], [inputs.netd, NETD], [inputs.ifov, IFOV], [inputs.dist, DISTANCE]] as const)
    .map(([value, spec]) => (value === null ? undefined : rangeFault(value, spec, system))).find((one) => one !== undefined)
  const rows = useMemo(() => (chosen && fault === undefined ? flightRows(chosen, inputs, policy) : []), [chosen, inputs, policy, fault])
  const sunOf = ({ of }: FlightRow) => sunOff(inputs.at?.getTime() ?? print.askedAtMs, of.lon, of.lat)
  const answerAt = useRef<HTMLDivElement>(null)
  const failed = sections.error ?? state.error
  const distanceText = inputs.dist === null ? null : formatOffset(inputs.dist, system)
  return (
    <div className={calculator.screen}>
      <PrintHead mark={mark} />
      <LoadingHead
        title="Before a flight"
        tools={
          <Button size="small" disabled={rows.length === 0} onClick={() => download(rows)}>
            <Icon name="download" />
            CSV
          </Button>
        }>
        Where would a bad splice show to an infrared camera in this weather at this load? Where it would not, an all clear proves nothing.
      </LoadingHead>
      <div className={css.beside}>
        <div className={`${css.question} no-print`}>
          <FlightForm
            inputs={inputs}
            put={put}
            timeZone={timeZone}
            chosen={ids}
            circuits={circuits.map(({ id, name, line_name: line }) => ({ value: id, label: line ? `${name}, ${line}` : name, short: name }))}
          />
        </div>
        <div className={css.answer} ref={answerAt}>
          {failed ? (
            <ErrorState {...asSentences(failed)} action={<Button onClick={() => void sections.refetch()}>Try again</Button>} />
          ) : chosen === null ? (
            <div className={css.bones}>
              <Skeleton height={28} width="60%" />
              <Skeleton height={320} />
            </div>
          ) : chosen.length === 0 && unknown.length > 0 && circuits.length > 0 ? (
            <EmptyState title={`No circuit is called ${unknown.join(', ')}`} action={<Button onClick={() => put({ circuit: null })}>Show all circuits</Button>}>
              Choose it by its name as imported; then this page says on which of its sections an infrared flight would tell something.
            </EmptyState>
          ) : chosen.length === 0 ? (
            <EmptyState title="No line is known yet" action={<Button asChild><Link href="/intake">Import lines</Link></Button>}>
              Import lines and loads first; then this page says which of them an infrared flight would tell something of.
            </EmptyState>
          ) : fault !== undefined ? (
            <p className={css.banner} role="status">{fault}</p>
          ) : (
            <div className={css.result}>
              {unknown.length > 0 && <p className={css.banner}>No circuit is called {unknown.join(', ')}: choose it by its name as imported.</p>}
              <p className={css.taken}>
                Air {formatTemperatureLimit(inputs.air, system)}, wind {formatWind(inputs.wind, system)} across the line, {SKY_WORDS[inputs.sky].toLowerCase()}{inputs.at ? sunAtText(rows, inputs.at, timeZone) : ''};{' '}
                {Math.round(inputs.share)} % of {inputs.load === 'last' ? 'the last known load' : 'the rating'}; camera of {inputs.ifov} mrad, noise {shownText(inputs.netd, NETD, system)}.
              </p>
              <p className={css.lead} role="status">
                {leadText(rows, distanceText)} {oldLoadText(rows, inputs, print.askedAtMs)}
              </p>
              {rows.every(({ standing }) => standing === 'load-unknown') && (
                <p className={sheet.note}>
                  No load is known: <Link href="/intake">import loads</Link> as CSV with circuit, section, taken_at, current_a and quality, or take a share of the rating.
                </p>
              )}
              <FlightTable rows={rows} inputs={inputs} sunOf={sunOf} policy={policy} system={system} timeZone={timeZone} />
              <p className={sheet.small}>
                A bad splice is one of {policy.radiometry.detectK} times its conductor’s resistance, taken over the whole splice: both sides bad. One bad side alone may not
                show; each row says so for one side at the critical edge beside a good one. It shows where it would be {policy.radiometry.detectTimes} times hotter than its
                conductor as the error of that difference, over at least {policy.infrared.leastPixels} pixels of its barrel. What the sun adds to a good splice of the same barrel
                counts as no part of it, and as error. It says nothing of permission to fly or to approach: follow the applicable code, the employer’s approach distances and a qualified person. Policy {policy.version}.
              </p>
              <Peek answer={answerAt}>{showsOn(rows, distanceText)}</Peek>
            </div>
          )}
        </div>
      </div>
      <PrintFoot {...print} ofDayMs={inputs.at?.getTime() ?? print.askedAtMs} />
    </div>
  )
}

/** ', at 14:00 of a day, 310 to 420 W/m² on the lines'. */
function sunAtText(rows: readonly FlightRow[], at: Date, timeZone: string): string {
  const suns = rows.map(({ sunWPerM2 }) => Math.round(sunWPerM2))
  const [least, most] = [Math.min(...suns), Math.max(...suns)]
  const on = most <= 0 ? 'which is off then' : `${least === most ? most : `${least} to ${most}`} W/m² on the lines`
  return suns.length === 0 ? '' : `, at ${formatDateTime(at.getTime(), timeZone)}, ${on}`
}

const count = (rows: readonly FlightRow[], ...standings: FlightRow['standing'][]): number => rows.filter(({ standing }) => standings.includes(standing)).length

function leadText(rows: readonly FlightRow[], distanceText: string | null): string {
  const [nearer, marginal, not, unknown] = [count(rows, 'nearer'), count(rows, 'marginal'), count(rows, 'do-not-fly'), count(rows, 'load-unknown', 'not-reckoned')]
  const others = not === 0 ? '' : not === rows.length ? 'Do not fly for this.' : `Do not fly for this on ${not}.`
  return [
    showsOn(rows, distanceText), nearer === 0 ? '' : `On ${nearer} only from nearer.`, marginal === 0 ? '' : `Marginal on ${marginal}.`, others,
    unknown === 0 ? '' : `Of ${unknown} nothing can be said.`,
  ].filter(Boolean).join(' ')
}

function download(rows: readonly FlightRow[]): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(new Blob([flightCsv(rows)], { type: 'text/csv;charset=utf-8' }))
  link.download = 'before-a-flight.csv'
  link.click()
  URL.revokeObjectURL(link.href)
}

interface FormProps {
  inputs: FlightInputs
  put: PutFlight
  timeZone: string
  chosen: number[]
  circuits: { value: number; label: string; short: string }[]
}

function FlightForm({ inputs, put, timeZone, chosen, circuits }: FormProps) {
  return (
    <form aria-label="Question" onSubmit={(e) => e.preventDefault()}>
      <Part title="Forecast">
        <SliderField spec={AIR} value={inputs.air} onValue={(air) => put({ air })} />
        <SliderField spec={WIND} value={inputs.wind} onValue={(wind) => put({ wind })} />
        <Choice
          label="Sun"
          value={inputs.sky}
          options={(['none', 'diffuse', 'direct'] as const).map((value) => ({ value, label: SKY_WORDS[value] }))}
          onValue={(sky) => put({ sky })}
        />
        {inputs.sky !== 'none' && (
          <MomentField
            label="Hour of the flight"
            hint="The sun is then that of the place and hour in clear air, else a usual one."
            value={inputs.at}
            onValue={(at) => put({ at })}
            timeZone={timeZone}
          />
        )}
      </Part>
      <Part title="Load">
        <Choice label="Take" value={inputs.load} options={LOAD_OPTIONS} onValue={(load) => put({ load })} />
        <SliderField spec={{ ...SHARE, label: inputs.load === 'last' ? 'Of that load, %' : 'Of the rating, %' }} value={inputs.share} onValue={(share) => put({ share })} />
      </Part>
      <Part title="Camera" note="From its data sheet. The distance is what you plan, from lens to splice.">
        <NumberField spec={IFOV} value={inputs.ifov} onValue={(ifov) => put({ ifov })} />
        <NumberField spec={NETD} value={inputs.netd} onValue={(netd) => put({ netd })} />
        <NumberField spec={DISTANCE} value={inputs.dist} onValue={(dist) => put({ dist })} />
      </Part>
      <Part title="Circuits">
        <Chooser
          name="All circuits"
          chosen={chosen.length > 0 ? chosen : undefined}
          options={circuits}
          onChoose={(circuit) => put({ circuit: circuit ?? null })}
          short={(id) => circuits.find((c) => c.value === id)?.short ?? String(id)}
        />
      </Part>
    </form>
  )
}
