'use client'
import { memo, useDeferredValue, useState } from 'react'
import Link from 'next/link'
import { Button } from '@/components/ui/button'
import { useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import sheet from '@/components/ui/sheet.module.css'
import { EmptyState } from '@/components/ui/states'
import { useLocalText } from '@/components/ui/use-local-text'
import { ENGINE_VERSION } from '@/lib/condition/version'
import type { Policy } from '@/lib/condition/policy'
import { elevationOf } from '@/lib/condition/rating-weather'
import { LIMIT_CAUTION } from '@/lib/condition/words'
import type { LoadingInputs } from './address'
import { AmbientPlot } from './ambient-plot'
import { JointsTable } from './joints-table'
import { LeftOut } from './left-out'
import type { LoadingAnswer } from './answer'
import { WhatLimits } from './limits'
import { drawnJoints } from './reckon'
import { SeenPlot } from './seen-plot'
import { currentText, degreesText, FIGURE_WORDS, limitText, LOAD_WORDS, passedLimitText, passText, refusalText, sectionText, standingText, weatherText, whatIfText } from './words'
import css from './loading.module.css'

interface Props {
  answer: LoadingAnswer
  inputs: LoadingInputs
  policy: Policy
}

/** The answer, in the order it is asked: how hot, which would pass, what limits, what the air costs, and what is not known. */
export const LoadingResult = memo(function LoadingResult({ answer, inputs, policy }: Props) {
  const [system] = useUnitSystem()
  const timeZone = useTimeZone()
  const local = useLocalText()
  const { reckoned, limits, lead, ranges, weather, rating, share } = answer
  // Plots, the gist and what limits keep up with the slider; long tables follow when it rests.
  const late = useDeferredValue(answer)
  const name = inputs.load === 'own' ? figureText(inputs) : LOAD_WORDS[inputs.load].replace(', as imported', '').toLowerCase()
  const limitC = policy.limit.temperatureC
  const drawn = reckoned.filter((one) => one.drawn)
  const several = reckoned.length > 1
  const noLoads = UNKNOWN[inputs.load] !== undefined && reckoned.every(({ currentA }) => currentA === null)
  return (
    <div className={css.result}>
      <p className={css.taken}>
        {name === '' ? '' : `${name.charAt(0).toUpperCase()}${name.slice(1)}${share === 1 ? '' : `, ${Math.round(share * 100)} % of it`}. `}
        {weatherText(weather, policy, system, reckoned.length === 0 ? undefined : reckoned.map(({ section }) => elevationOf(section.of.elevation_m, policy)))}{' '}
        {rating ? <span className={css.mark}>rating weather</span> : <span className={css.markWarn}>Not a rating</span>}
      </p>
      <div className={css.gist} role="status">
        <p className={css.lead}>
          {lead && limitText(lead, rating, policy, system)} {rating && passText(answer, inputs.load, policy, system, timeZone)}
        </p>
        {!rating && (
          <p>
            {lead && whatIfText(lead)} {passText(answer, inputs.load, policy, system, timeZone)}
          </p>
        )}
        {answer.passedLimits.length > 0 && <p className={sheet.overdue}>{passedLimitText(answer.passedLimits)}</p>}
        <p className={css.standing}>{standingText(answer)}</p>
      </div>
      {noLoads && <NoLoads title={UNKNOWN[inputs.load] ?? ''} />}
      {reckoned.map((one, i) => (
        <div key={one.section.of.id}>
          {one.refusal || !one.drawn || one.section.joints.length === 0 ? (
            <div className={css.undrawn}>
              <h3>{sectionText(one.section.of)}</h3>
              <p className={sheet.note}>
                {one.refusal ? refusalText(one.refusal)
                  : one.section.bodies === null ? 'Nothing can be worked out: its conductor is not on record, or not in the table. Ask line engineering for its code word.'
                    : one.currentA === null ? currentText(one, inputs.load, share, name, timeZone)
                      : one.section.leftOut.length > 0 ? 'None of its splices can be reckoned with: see what is left out.'
                        : `No splice is known on it. Its conductor would have ${degreesText(one.conductorC, system)}.`}
              </p>
            </div>
          ) : (
            <SeenPlot hint={i === 0} of={one} range={ranges[i] ?? NO_RANGE} limitC={limitC} current={`${one.section.of.conductor ?? ''}, ${currentText(one, inputs.load, share, name, timeZone)}`} />
          )}
          {one.drawn && one.section.of.max_operating_c !== null && (one.conductorC ?? Infinity) > one.section.of.max_operating_c && (
            <p className={sheet.overdue}>
              The conductor itself would pass the {degreesText(one.section.of.max_operating_c, system)} of its section.
            </p>
          )}
        </div>
      ))}
      <Passing over={late.over} drawn={drawn.length > 0} several={several} policy={policy} />
      <div className={css.pair}>
        <WhatLimits limits={limits} rating={rating} share={policy.limit.upperShare} />
        {late.tightest && (
          <section className={sheet.part}>
            <Ambient found={late.tightest} weather={late.weather} policy={policy} />
          </section>
        )}
      </div>
      <Left reckoned={late.reckoned} policy={policy} />
      <AllSplices reckoned={late.reckoned} several={several} />
      <p className={sheet.small}>
        {local(LIMIT_CAUTION)} It advises; operations decide. Local codes, the utility’s procedures and licensed practice govern. Heat balance of IEEE Std 738, no heat along the line;
        engine {ENGINE_VERSION}, policy {policy.version}
        {policy.procedureNo === '' ? '' : `, procedure ${policy.procedureNo}`}.
      </p>
    </div>
  )
})

const NO_RANGE = { fromC: 0, toC: 100 }
const Ambient = memo(AmbientPlot)
const Left = memo(LeftOut)

const Passing = memo(function Passing({ over, drawn, several, policy }: { over: LoadingAnswer['over']; drawn: boolean; several: boolean; policy: Policy }) {
  const [system] = useUnitSystem()
  const limit = degreesText(policy.limit.temperatureC, system)
  if (!drawn) return null
  return (
    <section className={sheet.part} aria-labelledby="over">
      <h2 id="over">Which would or could pass {limit}?</h2>
      {over.length > 0 && <JointsTable caption={`Splices that would pass ${limit}, or could at the upper ratio, the hottest first`} rows={over} several={several} />}
      {over.length === 0 && <p className={sheet.note}>No read splice, at the ratio each is believed to lie under. Of those that were not read nothing can be said. It says nothing of tension or fault current.</p>}
    </section>
  )
})

/** The twin of the plots; drawn only while it is open. */
const AllSplices = memo(function AllSplices({ reckoned, several }: { reckoned: LoadingAnswer['reckoned']; several: boolean }) {
  const [open, setOpen] = useState(false)
  const all = open ? reckoned.flatMap((section) => drawnJoints(section).map((joint) => ({ joint, section }))) : []
  if (!reckoned.some((section) => drawnJoints(section).length > 0)) return null
  return (
    <details className={`${css.twin} no-print`} onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>All splices as a table</summary>
      {open && <JointsTable caption="All splices, in line order" rows={all} several={several} firstRows={100} />}
    </details>
  )
})

/** 'expected peak of the planner's study 12'; where no source is named, that is said. */
function figureText({ figure, source }: Pick<LoadingInputs, 'figure' | 'source'>): string {
  return `${FIGURE_WORDS[figure].toLowerCase()}, typed in, ${source?.trim() ? `source: ${source.trim()}` : 'no source named'}`
}

/** What has to be imported before it can be taken. */
const UNKNOWN: Partial<Record<LoadingInputs['load'], string>> = {
  last: 'No load is known of these sections', peak: 'No expected peak is known of these sections', contingency: 'No flow after an outage is known of these sections',
}

function NoLoads({ title }: { title: string }) {
  return (
    <EmptyState
      small
      title={title}
      action={
        <>
          <Button asChild size="small"><Link href="/intake">Import loads</Link></Button>
          <Button asChild size="small" variant="quiet"><a href="/api/v1/templates/loads.csv" download="loads.csv">Download the template</a></Button>
        </>
      }>
      Loads come as CSV with circuit, section, taken_at, current_a and quality, under any header; what the planner expects, with the quality expected-peak or
      post-contingency. Until then take the rating, or write a figure of your own.
    </EmptyState>
  )
}
