import type { ReactNode } from 'react'
import { SpliceCalls } from '@/components/calls/splice-calls'
import { cx } from '@/components/ui/class-names'
import { CopyText } from '@/components/ui/copy-text'
import css from '@/components/ui/sheet.module.css'
import { ownEdge } from '@/lib/condition/edges'
import type { SpliceDetail } from '@/lib/contract/contract'
import type { UnitSystem } from '@/lib/units/format'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { agoText, durationText } from './age'
import { readAssessment } from './assessment'
import { sheetWords } from './explanation'
import { ratingMismatch } from './edges-text'
import { Facts } from './facts'
import { heldReading } from './held-words'
import { History } from './history'
import { InfraredNotes } from './infrared-notes'
import { KAxis } from './k-axis'
import { LimitRegister } from './limit-register'
import { hotWords, nothingProvedWords } from './picture-words'
import { NextActions } from './next-actions'
import { OperationsAsks } from './operations-asks'
import { placeDoubts } from './place-doubt'
import { Placements } from './placements'
import { coordinateText, geoUri, type PhaseLetters } from './position'
import { RatioHistory } from './ratio-history'
import { ReadingsTable } from './readings-table'
import { Remarks } from './remarks'
import { SheetHead } from './sheet-head'
import { Working } from './working'

export interface SpliceSheetProps {
  detail: SpliceDetail
  system: UnitSystem
  timeZone: string
  letters: PhaseLetters
  /** When the page was asked for; ages are counted from it. */
  nowMs: number
  wide?: boolean
  tools?: ReactNode
  /** Where an engineer decides on a held class. */
  decide?: ReactNode
  /** Where a limit is proposed, agreed, accepted and lifted. */
  limitSteps?: ReactNode
  /** Where a call, or a look at it, is noted. */
  callSteps?: ReactNode
  /** Where it is noted who loses supply, what isolates the circuit and who is called. */
  noteTrip?: ReactNode
  /** Within Operations the circuit is selected in place; elsewhere its sheet is opened. */
  onSelectCircuit?(id: number): void
}

/** The title block of one splice: what operations asks, what to do by when and why, and what that rests on. */
export function SpliceSheet({ detail, system, timeZone, letters, nowMs, wide, tools, decide, limitSteps, callSteps, noteTrip, onSelectCircuit }: SpliceSheetProps) {
  const assessment = readAssessment(detail.assessment)
  const text = sheetWords(detail, system, timeZone, nowMs)
  const pictures = assessment?.infrared ?? []
  const flags = (text?.flags ?? []).flatMap(({ code, text: sentence }) => {
    const shown = code === 'held' ? '' : pictures.length === 0 ? sentence
      : code === 'infrared-hot' ? hotWords(pictures, timeZone) : code === 'infrared-inconclusive' ? nothingProvedWords(pictures, timeZone) : sentence
    return shown === '' ? [] : [{ code, text: shown }]
  })
  // Where resistance governs, the notes on the pictures say the rest.
  const offPaper = assessment?.governingSide !== undefined && pictures.length > 0 ? text?.ofPictures : undefined
  const ofPicture = ({ code }: { code: string }) => pictures.length > 0 && (code === 'infrared-hot' || code === 'infrared-inconclusive')
  const fusion = detail.outlook?.fusion ?? null
  const dueAt = detail.outlook?.next_reading_due_at ?? null
  const again = assessment?.nextActions.some(({ code }) => code === 'measure-again') === true // it says so there
  const dueMs = dueAt === null ? null : Date.parse(dueAt)
  const own = assessment ? ownEdge(detail.class, assessment.edges) : null
  const edges = assessment ? [assessment.edges.watch, assessment.edges.degraded, assessment.edges.urgent, assessment.edges.critical] : []
  const section = { ...detail, edges_at_a: detail.temperatures?.edges_at_a ?? null, conductor_at_rating_c: detail.temperatures?.conductor_at_rating_c ?? null }
  const mismatch = ratingMismatch(section, system)
  if (mismatch !== '') flags.unshift({ code: 'rating-mismatch', text: mismatch })
  flags.unshift(...placeDoubts(detail))
  return (
    <article className={css.sheet} aria-labelledby="splice-title">
      <SheetHead
        detail={detail}
        heat={text?.heat ?? null}
        sentence={text?.headline ?? ''}
        edges={edges}
        ownEdge={own}
        system={system}
        timeZone={timeZone}
        letters={letters}
        nowMs={nowMs}
        tools={tools}
        decide={decide}
        onSelectCircuit={onSelectCircuit}
      />
      <section className={cx(css.part, css.whole, css.whereabouts)}>
        <h2>Where</h2>
        <p className={css.row}>
          <span>{coordinateText(detail.lon, detail.lat)}</span>
          <CopyText text={coordinateText(detail.lon, detail.lat)} label="Copy coordinates" />
          <a className="no-print" href={geoUri(detail.lon, detail.lat)}>Open in maps</a>
        </p>
        <Facts detail={detail} system={system} />
      </section>
      <div className={wide ? css.columns : css.stacked}>
        <div>
          <div className={css.early}>
            <OperationsAsks detail={detail} assessment={assessment} system={system} timeZone={timeZone} nowMs={nowMs} note={noteTrip} />
          </div>
        </div>
        <div>
          {text && (
            <div className={css.first}>
              <NextActions detail={detail} assessment={assessment} sentences={text.nextActions} caution={text.caution} timeZone={timeZone} nowMs={nowMs} />
            </div>
          )}
          {text && text.reasons.length > 0 && (
            <section className={cx(css.part, css.dense)}>
              <h2>Why</h2>
              {detail.hold && (
                <>
                  <p>{heldReading({ ...detail, hold: detail.hold }, edges, timeZone)}</p>
                  <p className={css.small}>What is known now, which does not clear it by itself:</p>
                </>
              )}
              <Sentences of={text.reasons} offPaper={offPaper} />
            </section>
          )}
          {text && text.open.length > 0 && (
            <section className={css.part}>
              <h2>What would settle it</h2>
              <Sentences of={text.open} />
            </section>
          )}
          {flags.length > 0 && (
            <section className={cx(css.part, css.whole, css.dense, flags.every(ofPicture) && cx('no-print', css.saidBeside))}>
              <h2>To keep in mind</h2>
              <ul className={css.sentences}>
                {flags.map((f) => (
                  <li key={f.code} className={ofPicture(f) ? cx('no-print', css.saidBeside) : undefined}>{f.text}</li>
                ))}
              </ul>
            </section>
          )}
          <div className={css.early}>
            <LimitRegister detail={detail} timeZone={timeZone} act={limitSteps} />
            <SpliceCalls detail={detail} system={system} timeZone={timeZone} act={callSteps} />
          </div>
          <Placements readings={detail.readings} other_places={detail.other_places} timeZone={timeZone} />
          <Remarks readings={detail.readings} timeZone={timeZone} />
        </div>
        <div>
          {assessment && (assessment.sides.length > 0 || fusion || typeof detail.hold?.ratio === 'number') && (
            <section className={css.part}>
              <KAxis assessment={assessment} place={section} fusion={fusion} system={system} timeZone={timeZone} hold={detail.hold} />
            </section>
          )}
          <section className={css.part}>
            <h2>Readings</h2>
            {assessment && <RatioHistory readings={detail.readings} assessment={assessment} dueMs={dueMs} timeZone={timeZone} />}
            {text && text.trends.length > 0 && <Sentences of={text.trends} />}
            {detail.readings.length > 0 ? (
              <ReadingsTable readings={detail.readings} system={system} timeZone={timeZone} picturesNoted={pictures.length > 0} />
            ) : (
              <p className={css.note}>No reading has reached this splice yet, so nothing is known of its condition.</p>
            )}
            {dueMs !== null && !again && <ReadAgain dueMs={dueMs} timeZone={timeZone} nowMs={nowMs} />}
          </section>
          {assessment && assessment.infrared.length > 0 && (
            <InfraredNotes notes={assessment.infrared} phases={detail.other_phases} system={system} timeZone={timeZone} letters={letters} />
          )}
          <History history={detail.history} timeZone={timeZone} />
        </div>
      </div>
      {assessment && detail.removed_on === null && <Working spliceId={detail.id} assessedAt={detail.assessed_at} system={system} />}
      <Foot detail={detail} engine={assessment} timeZone={timeZone} nowMs={nowMs} />
    </article>
  )
}

const Sentences = ({ of, offPaper }: { of: readonly string[]; offPaper?: ReadonlySet<string> }) => (
  <ul className={css.sentences}>
    {of.map((sentence) => (
      <li key={sentence} className={offPaper?.has(sentence) ? cx('no-print', css.saidBeside) : undefined}>
        {sentence}
      </li>
    ))}
  </ul>
)

function ReadAgain({ dueMs, timeZone, nowMs }: { dueMs: number; timeZone: string; nowMs: number }) {
  const late = nowMs > dueMs
  return (
    <p>
      To be read again by <strong className={late ? css.overdue : undefined}>{formatDate(dueMs, timeZone)}</strong>
      {late ? `, overdue by ${durationText(nowMs - dueMs)}` : `, in ${durationText(dueMs - nowMs)}`}.
    </p>
  )
}

interface FootProps {
  detail: SpliceDetail
  engine: { engineVersion: string; policyVersion: number } | null
  timeZone: string
  nowMs: number
}

function Foot({ detail, engine, timeZone, nowMs }: FootProps) {
  const lastMs = detail.last_reading_at === null ? null : Date.parse(detail.last_reading_at)
  return (
    <footer className={cx(css.part, css.small)}>
      <p>
        {lastMs === null ? 'No dated reading. ' : `Last reading ${formatDateTime(lastMs, timeZone)}, ${agoText(lastMs, nowMs)}. `}
        {detail.assessed_at && `As of ${formatDateTime(Date.parse(detail.assessed_at), timeZone)}. `}
        {engine && `Engine ${engine.engineVersion}, policy ${engine.policyVersion}.`}
      </p>
    </footer>
  )
}
