import { Fragment } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { InPlaceLink } from '@/components/ui/in-place-link'
import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import type { CircuitJson } from '@/lib/contract/api'
import type { SectionSpliceLimit } from '@/lib/contract/limits'
import { allowedMeasure, formatAllowed, formatAllowedMva, formatCurrent, formatVoltage } from '@/lib/units/format'
import { apparentPowerMva, partLimits, type PartLimit } from './limits'

interface Props {
  circuit: CircuitJson
  onSelectSplice?(id: number): void
}

/** What limits the through line, its splice before its rating; then each tap for itself. Terminal equipment may limit it further. */
export function MayCarry({ circuit, onSelectSplice }: Props) {
  const { main, taps } = partLimits(circuit)
  const limitedTaps = taps.filter(isLimited)
  return (
    <>
      {main && <Main of={main} voltageKv={circuit.voltage_kv} onSelect={onSelectSplice} />}
      {limitedTaps.length > 0 && (
        <ul className={css.sentences}>
          {limitedTaps.map((tap) => (
            <li key={tap.section.id}>
              {main ? `${tap.section.name} alone` : tap.section.name}: <Tap of={tap} onSelect={onSelectSplice} />
            </li>
          ))}
        </ul>
      )}
      {[main, ...limitedTaps].some((part) => part && isLimited(part)) && (
        <p className={css.small}>In rating weather, by the splices that were read. Advice for the rating engineer: continuous, without a time for an emergency. A limit in force stands on the register.</p>
      )}
    </>
  )
}

const isLimited = ({ splice, mayBeLower }: PartLimit): boolean => splice !== null || mayBeLower.length > 0

type PartProps = { of: PartLimit; onSelect?(id: number): void }

/** Where only splices without a figure limit it, its rating does not stand beside them: it would be read as what it may carry. */
const Withheld = ({ of, onSelect }: PartProps) => (
  <>
    limited by <Splices of={of.mayBeLower} onSelect={onSelect} />, of which no figure is drawn. Ask the rating engineer.
  </>
)

function Tap({ of, onSelect }: PartProps) {
  const { splice, mayBeLower } = of
  if (!splice || splice.line_a === null) return <><strong>not known</strong>, <Withheld of={of} onSelect={onSelect} /></>
  return (
    <>
      {mayBeLower.length > 0 && 'not more than '}
      <strong>{formatAllowed(splice.line_a)}</strong>, by <Splices of={[splice]} onSelect={onSelect} />
      <Lower of={of} onSelect={onSelect} />. {ratingText(of)}
    </>
  )
}

function Main({ of, voltageKv, onSelect }: PartProps & { voltageKv: number | null }) {
  const { splice, section, mayBeLower } = of
  if (!splice && mayBeLower.length > 0) return <p className={css.note}>Not known: <Withheld of={of} onSelect={onSelect} /></p>
  const lineA = splice?.line_a ?? section.rating_a
  if (lineA === null) return <p className={css.note}>What limits it is not known: {section.name === 'main' ? 'its main section' : section.name} has no rating on record. Ask engineering.</p>
  return (
    <>
      <p className={css.lead}>
        {mayBeLower.length > 0 && 'Not more than '}
        <strong>
          <Quantity {...allowedMeasure(lineA)} />
        </strong>{' '}
        per phase
        {voltageKv !== null && `, ${formatAllowedMva(apparentPowerMva(voltageKv, lineA))} MVA at ${formatVoltage(voltageKv)}`}
        , {splice ? <>by <Splices of={[splice]} onSelect={onSelect} /></> : `by the rating of ${section.name === 'main' ? 'its main section' : section.name}; no splice that was read allows less`}
        <Lower of={of} onSelect={onSelect} />
      </p>
      {splice && <p className={css.note}>{ratingText(of)}</p>}
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
