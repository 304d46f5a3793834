'use client'
import { useEffect, useState } from 'react'
import { parseAsArrayOf, parseAsInteger, parseAsString, useQueryStates } from 'nuqs'
import { useCircuits } from '@/components/operations/queries'
import { Button } from '@/components/ui/button'
import { Chooser } from '@/components/ui/chooser'
import { CopyLink } from '@/components/ui/copy-link'
import { asSentences } from '@/components/ui/fetch-json'
import { NativeSelect } from '@/components/ui/native-select'
import { useNetworkState } from '@/components/ui/network-state'
import { useTimeZone } from '@/components/ui/preferences'
import { PrintButton } from '@/components/ui/print'
import { EmptyState, ErrorState, Skeleton } from '@/components/ui/states'
import { useNow } from '@/components/ui/use-now'
import { formatDateTime } from '@/lib/units/time'
import { CallLog } from './call-log'
import { LookAgain } from './look-again'
import { useCalls, useLookAgain } from './use-calls'
import { DEFAULT_SINCE, sinceMs, SINCES } from './words'
import css from './calls.module.css'

const PARAMS = {
  circuit: parseAsArrayOf(parseAsInteger).withDefault([]),
  since: parseAsString.withDefault(DEFAULT_SINCE),
}

/** What the next shift reads: what is to be looked at again, and who called whom and what was decided. */
export function CallsScreen({ askedAtMs }: { askedAtMs: number }) {
  const timeZone = useTimeZone()
  const nowMs = useNow()
  const version = useNetworkState().data?.data_version
  const [params, setParams] = useQueryStates(PARAMS, { history: 'replace', scroll: false })
  // By the minute at which it was chosen: a question that moves with the clock would be a new one each minute.
  const fromMs = sinceMs(params.since, Math.floor(askedAtMs / 60_000) * 60_000, timeZone)
  const known = SINCES.some(({ value }) => value === params.since)
  const circuits = useCircuits(version)
  const calls = useCalls(params.circuit, fromMs === null || fromMs === undefined ? null : new Date(fromMs).toISOString(), version)
  const again = useLookAgain(version)
  const marked = useMarked()
  const entries = calls.data?.pages.flatMap(({ items }) => items) ?? []
  const from = fromMs === null || fromMs === undefined ? 'from the first entry on' : `since ${formatDateTime(fromMs, timeZone)}`
  return (
    <div className={css.page}>
      <div className={css.head}>
        <div>
          <h1>Calls</h1>
          <p>Who called whom about which splice, and what was decided, for the next shift. Entries stay as they were written.</p>
        </div>
        <div className={`${css.tools} no-print`}>
          <CopyLink detail="It opens this log with the same circuits and since the same time." />
          <PrintButton />
        </div>
      </div>
      {again.data ? <LookAgain of={again.data} nowMs={nowMs} /> : again.isError ? <ErrorState small {...asSentences(again.error)} /> : <Skeleton height={72} />}
      <section aria-labelledby="log-title">
        <div className={css.logHead}>
          <h2 id="log-title">Log</h2>
          <span className={css.choosers}>
            <NativeSelect className="no-print" label="Since" value={params.since} onChange={(e) => void setParams({ since: e.target.value })}>
              {!known && <option value={params.since}>Since {fromMs === undefined || fromMs === null ? params.since : formatDateTime(fromMs, timeZone)}</option>}
              {SINCES.map(({ value, label }) => <option key={value} value={value}>{label}</option>)}
            </NativeSelect>
            <span className="no-print">
              <Chooser
                name="Circuit"
                chosen={params.circuit.length > 0 ? params.circuit : undefined}
                options={(circuits.data ?? []).map((c) => ({ value: c.id, label: c.line_name ? `${c.name}, ${c.line_name}` : c.name }))}
                onChoose={(circuit) => void setParams({ circuit: circuit ?? null })}
                short={(id) => circuits.data?.find((c) => c.id === id)?.name ?? String(id)}
              />
            </span>
          </span>
          <p role="status" className={css.small}>
            {calls.data ? `${entries.length}${calls.hasNextPage ? ' newest' : ''} ${entries.length === 1 ? 'entry' : 'entries'} ${from}${params.circuit.length > 0 ? ', of the circuits chosen alone' : ''}` : 'Loading…'}
          </p>
        </div>
        {calls.isError && <ErrorState small {...asSentences(calls.error)} action={<Button size="small" onClick={() => void calls.refetch()}>Try again</Button>} />}
        {calls.isSuccess && entries.length === 0 && (
          <EmptyState small title="No call is noted here" action={params.since === 'all' ? undefined : <Button size="small" onClick={() => void setParams({ since: 'all', circuit: null })}>Show everything</Button>}>
            Calls are recorded on the sheet of a splice; what the control room is told stands here by itself.
          </EmptyState>
        )}
        {entries.length > 0 && <CallLog entries={entries} marked={marked} />}
        {calls.hasNextPage && <p className={css.more}><Button size="small" busy={calls.isFetchingNextPage} onClick={() => void calls.fetchNextPage()}>Earlier</Button></p>}
      </section>
    </div>
  )
}

/** The entry that the address names behind its #. */
function useMarked(): string | null {
  const [hash, setHash] = useState<string | null>(null)
  useEffect(() => {
    const read = () => setHash(window.location.hash.slice(1) || null)
    read()
    window.addEventListener('hashchange', read)
    return () => window.removeEventListener('hashchange', read)
  }, [])
  return hash
}
