import { Fragment } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { InPlaceLink } from '@/components/ui/in-place-link'
import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import { allowedA } from '@/lib/condition/governing-limit'
import type { CircuitJson } from '@/lib/contract/api'
import type { CurrentLimitJson, SectionSpliceLimit } from '@/lib/contract/limits'
import { allowedMeasure, formatAllowed, formatAllowedMva, formatCurrent, formatVoltage } from '@/lib/units/format'
import { apparentPowerMva, askFirst, governedBy, governingA, isLimited, isUnread, partLimits, splicesOf, type PartLimit } from './limits'

interface Props {
  circuit: CircuitJson
  onSelectSplice?(id: number): void
}

/**
 * What limits the through line: of its limits in force and what its splices allow the lower, before its rating; then each tap for itself.
 * Terminal equipment may limit it further.
 */
export function MayCarry({ circuit, onSelectSplice }: Props) {
  const { main, taps } = partLimits(circuit)
  const limitedTaps = taps.filter(isLimited)
  return (
    <>
      {main && (isUnread(circuit, main) ? <Unread circuit={circuit} of={main} /> : <Main of={main} voltageKv={circuit.voltage_kv} onSelect={onSelectSplice} />)}
      {main && <Planned of={main} />}
      {limitedTaps.length > 0 && (
        <ul className={css.sentences}>
          {limitedTaps.map((tap) => (
            <li key={tap.section.id}>
              {main ? `${tap.section.name} alone` : tap.section.name}: <Tap of={tap} onSelect={onSelectSplice} />
            </li>
          ))}
        </ul>
      )}
      <p className={css.small}>
        <InForce limits={circuit.limits} onSelect={onSelectSplice} />
        {[main, ...limitedTaps].some((part) => part && (part.splice !== null || part.mayBeLower.length > 0))
          && ' Advised figures: in rating weather, by the splices that were read. Advice for the rating engineer: continuous, without a time for an emergency.'}
      </p>
    </>
  )
}

/** The rating of a line of which no splice was read is not what it may carry. */
const Unread = ({ circuit, of: { section } }: { circuit: CircuitJson; of: PartLimit }) => (
  <p className={css.note}>
    Not known: of its {splicesOf(circuit)} {splicesOf(circuit) === 1 ? 'splice' : 'splices'} none was read conclusively.
    {section.rating_a !== null && ` ${section.name === 'main' ? 'Its main section' : section.name} is rated ${formatCurrent(section.rating_a)} per phase without its splices.`}
  </p>
)

/** 'Limit in force: 500 A, splice 2310-014.' Every one, or that there is none. */
function InForce({ limits, onSelect }: { limits: CircuitJson['limits']; onSelect?(id: number): void }) {
  const inForce = limits.filter(({ standing }) => standing === 'in-force')
  if (inForce.length === 0) return <>No limit in force.</>
  return (
    <>
      {inForce.length === 1 ? 'Limit' : 'Limits'} in force:{' '}
      {inForce.map((one, i) => (
        <Fragment key={one.id}>
          {i > 0 && ', '}
          {formatAllowed(one.line_a)}, <OneSplice of={one} onSelect={onSelect} />
        </Fragment>
      ))}
      .
    </>
  )
}

const OneSplice = ({ of, onSelect }: { of: Pick<CurrentLimitJson, 'splice_id' | 'splice'>; onSelect?(id: number): void }) => (
  <>
    splice{' '}
    <InPlaceLink href={`/splices/${of.splice_id}`} onSelect={onSelect && (() => onSelect(of.splice_id))}>
      {of.splice}
    </InPlaceLink>
  </>
)

type PartProps = { of: PartLimit; onSelect?(id: number): void }

/** Where only splices without a figure limit it, its rating does not stand beside them: it would be read as what it may carry. */
const Withheld = ({ of, onSelect }: PartProps) => (
  <>
    limited by <Splices of={of.mayBeLower} onSelect={onSelect} />, of which no figure is drawn. Ask the rating engineer.
  </>
)

/** What governs, after its figure: whose limit in force, or whose advised figure, and the other where there is one. */
function By({ of, onSelect }: PartProps) {
  const { splice, inForce, section } = of
  switch (governedBy(of)) {
    case 'in-force':
      return <>limit in force of {inForce && <OneSplice of={inForce} onSelect={onSelect} />}</>
    case 'advised':
      return <>advised, by {splice && <Splices of={[splice]} onSelect={onSelect} />}</>
    default:
      return <>by the rating of {section.name === 'main' ? 'its main section' : section.name}; no splice that was read allows less</>
  }
}

/** The figure that does not govern. An advised one below the limit in force of the same splice governs, and says so. */
function Beside({ of, onSelect }: PartProps) {
  const { splice, inForce } = of
  const by = governedBy(of)
  if (by === 'in-force') {
    return splice && splice.line_a !== null ? <>Advised {formatAllowed(splice.line_a)}, by <Splices of={[splice]} onSelect={onSelect} />. </> : <>No splice that was read is advised less. </>
  }
  if (by !== 'advised' || !inForce) return null
  return (
    <strong className={css.overdue}>
      That is below the limit in force, {formatAllowed(inForce.line_a)}, <OneSplice of={inForce} onSelect={onSelect} />: ask the rating engineer.{' '}
    </strong>
  )
}

/** Before any figure where a limit has lapsed that lies below it. */
function AskFirst({ of, onSelect }: { of: CurrentLimitJson; onSelect?(id: number): void }) {
  return (
    <>
      the limit of {formatAllowed(of.line_a)}, <OneSplice of={of} onSelect={onSelect} />, has lapsed.{' '}
    </>
  )
}

function Tap({ of, onSelect }: PartProps) {
  const lineA = governingA(of)
  const ask = askFirst(of)
  const asked = ask && <><strong>Ask the rating engineer</strong>: <AskFirst of={ask} onSelect={onSelect} /></>
  if (lineA === null) return <>{asked}{!ask && <><strong>not known</strong>, </>}{of.mayBeLower.length > 0 ? <Withheld of={of} onSelect={onSelect} /> : ratingText(of)}</>
  return (
    <>
      {asked}
      {(of.mayBeLower.length > 0 || ask) && 'Not more than '}
      <strong>{formatAllowed(lineA)}</strong>, <By of={of} onSelect={onSelect} />
      <Lower of={of} onSelect={onSelect} />. <Beside of={of} onSelect={onSelect} />
      {ratingText(of)}
    </>
  )
}

function Main({ of, voltageKv, onSelect }: PartProps & { voltageKv: number | null }) {
  const { section, mayBeLower } = of
  const lineA = governingA(of)
  const ask = askFirst(of)
  const asked = ask && (
    <p className={css.lead}>
      <strong>Ask the rating engineer</strong>: <AskFirst of={ask} onSelect={onSelect} />
    </p>
  )
  if (lineA === null) {
    return (
      <>
        {asked}
        {mayBeLower.length > 0 ? <p className={css.note}>Not known: <Withheld of={of} onSelect={onSelect} /></p>
          : <p className={css.note}>What limits it is not known: {section.name === 'main' ? 'its main section' : section.name} has no rating on record. Ask engineering.</p>}
      </>
    )
  }
  return (
    <>
      {asked}
      <p className={ask ? undefined : css.lead}>
        {(mayBeLower.length > 0 || ask) && 'Not more than '}
        <strong>
          <Quantity {...allowedMeasure(lineA)} />
        </strong>{' '}
        per phase
        {voltageKv !== null && `, ${formatAllowedMva(apparentPowerMva(voltageKv, lineA))} MVA at ${formatVoltage(voltageKv)}`}
        , <By of={of} onSelect={onSelect} />
        <Lower of={of} onSelect={onSelect} />
      </p>
      {governedBy(of) !== 'rating' && (
        <p className={css.note}>
          <Beside of={of} onSelect={onSelect} />
          {ratingText(of)}
        </p>
      )}
    </>
  )
}

const Lower = ({ of: { mayBeLower }, onSelect }: PartProps) =>
  mayBeLower.length === 0 ? null : <>; <Splices of={mayBeLower} onSelect={onSelect} /> may be lower: ask the rating engineer</>

/** More than these and the line is no longer read; the rest stand in the table of splices. */
const NAMED = 3

function Splices({ of, onSelect }: { of: readonly SectionSpliceLimit[]; onSelect?(id: number): void }) {
  const more = of.length - NAMED
  return (
    <>
      {of.length === 1 ? 'splice ' : 'splices '}
      {of.slice(0, NAMED).map((one, i) => (
        <Fragment key={one.splice_id}>
          {i > 0 && ', '}
          <ClassMark class={one.class} size={14} />{' '}
          <InPlaceLink href={`/splices/${one.splice_id}`} onSelect={onSelect && (() => onSelect(one.splice_id))}>
            {one.splice}
          </InPlaceLink>
          , {one.class}
          {one.held ? ', held' : ''}
        </Fragment>
      ))}
      {more > 0 && ` and ${more} more`}
    </>
  )
}

const ratingText = ({ section: { name, rating_a: ratingA } }: PartLimit): string =>
  ratingA === null
    ? `The rating of ${name === 'main' ? 'the main section' : 'it'} is not on record.`
    : `${name === 'main' ? 'The main section is' : 'It is'} rated ${formatCurrent(ratingA)} without its splices.`

const PLANNED = [['expected_peak', 'Expected peak'], ['post_contingency', 'flow after the worst outage elsewhere']] as const

/** What the planner says that it will carry, against what governs. */
function Planned({ of }: { of: PartLimit }) {
  const lineA = governingA(of)
  const said = PLANNED.map(([flow, name]) => {
    const currentA = of.section[flow]?.current_a
    if (currentA === undefined) return { over: false, text: `${name} not known` }
    const over = lineA !== null && currentA > allowedA(lineA)
    return { over, text: `${name} ${formatCurrent(currentA)}${over ? `, ${formatCurrent(currentA - allowedA(lineA))} over that` : ''}` }
  })
  const unknown = PLANNED.some(([flow]) => of.section[flow] === null)
  return (
    <p>
      {said.map(({ over, text }, i) => (
        <Fragment key={text}>
          {i > 0 && '; '}
          {over ? <strong className={css.overdue}>{text}</strong> : text}
        </Fragment>
      ))}
      {unknown ? '. Ask the system planner.' : '.'}
    </p>
  )
}
