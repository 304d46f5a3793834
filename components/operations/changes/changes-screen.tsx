'use client'
import Link from 'next/link'
import { Button } from '@/components/ui/button'
import { CopyLink } from '@/components/ui/copy-link'
import { asSentences } from '@/components/ui/fetch-json'
import { useNetworkState } from '@/components/ui/network-state'
import { useTimeZone } from '@/components/ui/preferences'
import { PrintButton, PrintFoot, PrintHead } from '@/components/ui/print'
import { EmptyState, ErrorState, Skeleton } from '@/components/ui/states'
import { pressingOf } from '@/components/health/health-rows'
import type { ChangesJson } from '@/lib/contract/changes'
import { formatNumber } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { useCircuits } from '../queries'
import { ClassPart } from './class-part'
import { AdvisedPart, ClearedPart, ConflictPart, LimitPart, NoticePart, ReadingPart, RepairPart, WaitingPart } from './other-parts'
import { Period } from './period'
import { partOf, useChanges, type ChangesAsked } from './use-changes'
import { useVisit } from './use-visit'
import { sinceOf, type Visit } from './visit'
import { hasChanges, KIND_WORDS } from './words'
import css from './changes.module.css'

interface Props extends ChangesAsked {
  circuitIds: number[] | undefined
  /** As the page was asked for. */
  visit: Visit
  mark: string
  print: { utility: string; askedAtMs: number }
}

/** What changed since the last visit, or since any moment: what became worse first. */
export function ChangesScreen({ since, circuitIds, visit, mark, print }: Props) {
  const state = useNetworkState()
  const version = state.data?.data_version
  const circuits = useCircuits(version)
  const timeZone = useTimeZone()
  const lastVisit = sinceOf(useVisit(visit), print.askedAtMs)
  const asked = { since, circuitIds }
  const answer = useChanges(asked, version)
  const failed = answer.error ?? (version === undefined ? state.error : null)
  const names = circuitIds?.map((id) => circuits.data?.find((c) => c.id === id)?.name ?? String(id))
  const isVisit = lastVisit.of === 'visit' && Date.parse(lastVisit.at) === Date.parse(since)
  const shown = circuits.data?.filter((c) => !circuitIds || circuitIds.includes(c.id)) ?? []
  return (
    <div className={css.screen}>
      <PrintHead mark={mark} />
      <p className={`${css.back} no-print`}>
        <Link href={circuitIds ? `/operations?circuit=${circuitIds.join(',')}` : '/operations'}>Operations</Link>
      </p>
      <div className={css.head}>
        <div>
          <h1>What changed</h1>
          <p>
            Since {isVisit && 'your last visit to Operations in this browser, '}
            <b>{formatDateTime(Date.parse(since), timeZone)}</b>, {names ? `on ${names.length === 1 ? 'circuit' : 'circuits'} ${names.join(', ')}` : 'on all circuits'}.
            {answer.data && ` As of ${formatDateTime(Date.parse(answer.data.as_of), timeZone)}.`}
          </p>
        </div>
        <div className={`${css.tools} no-print`}>
          <CopyLink detail="Whoever opens it sees what changed since the same moment, as far as it is known then." />
          <PrintButton />
        </div>
      </div>
      <Period since={since} lastVisit={lastVisit} circuits={circuits.data ?? []} circuitIds={circuitIds} askedAtMs={print.askedAtMs} />
      {failed && !answer.data ? (
        <ErrorState {...asSentences(failed)} action={<Button onClick={() => void (version === undefined ? state.refetch() : answer.refetch())}>Try again</Button>} />
      ) : answer.data ? (
        <Told of={answer.data} asked={asked} version={version} />
      ) : (
        <Bones />
      )}
      <PrintFoot {...print} pressing={pressingOf(shown)} />
    </div>
  )
}

function Told({ of: { parts, since }, asked, version }: { of: ChangesJson; asked: ChangesAsked; version: number | undefined }) {
  const timeZone = useTimeZone()
  const of = { asked, version }
  const [classes, notices, conflicts] = [partOf(parts, 'class'), partOf(parts, 'notice'), partOf(parts, 'conflict')]
  const [advised, limits, cleared, repairs] = [partOf(parts, 'advised'), partOf(parts, 'limit'), partOf(parts, 'cleared'), partOf(parts, 'repair')]
  const [readings, waiting] = [partOf(parts, 'reading'), partOf(parts, 'waiting')]
  return (
    <>
      <ul className={css.counts} aria-label="How much changed">
        {parts.map(({ kind, count }) => (
          <li key={kind} data-none={count === 0 || undefined}>
            {count === 0 ? <Count count={count} noun={KIND_WORDS[kind].noun(count)} /> : <a href={`#${kind}`}><Count count={count} noun={KIND_WORDS[kind].noun(count)} /></a>}
          </li>
        ))}
      </ul>
      {!hasChanges(parts) && (
        <EmptyState small title={`Nothing changed since ${formatDateTime(Date.parse(since), timeZone)}`}>
          No reading came in, no class changed, nobody was told, and no limit moved. An earlier day shows more.
        </EmptyState>
      )}
      {classes && <ClassPart part={classes} {...of} />}
      {notices && <NoticePart part={notices} {...of} />}
      {conflicts && <ConflictPart part={conflicts} {...of} />}
      {advised && <AdvisedPart part={advised} {...of} />}
      {limits && <LimitPart part={limits} {...of} />}
      {cleared && <ClearedPart part={cleared} {...of} />}
      {repairs && <RepairPart part={repairs} {...of} />}
      {readings && <ReadingPart part={readings} {...of} />}
      {waiting && <WaitingPart part={waiting} {...of} />}
    </>
  )
}

const Count = ({ count, noun }: { count: number; noun: string }) => (
  <>
    <b>{formatNumber(count, 0)}</b> {noun}
  </>
)

const Bones = () => (
  <div className={css.bones} aria-busy="true">
    <Skeleton height={64} />
    {[0, 1, 2, 3, 4, 5].map((i) => <Skeleton key={i} height={40} />)}
  </div>
)
