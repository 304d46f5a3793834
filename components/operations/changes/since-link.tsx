'use client'
import Link from 'next/link'
import { useTimeZone } from '@/components/ui/preferences'
import { formatDateTime } from '@/lib/units/time'
import { changesHref, type Since } from './visit'
import { partOf, useChangeCounts } from './use-changes'
import { gistText } from './words'
import css from './changes.module.css'

/** Leads quietly to what changed since the last visit; its second line keeps its place while it is being counted. */
export function SinceLink({ since, circuitIds, version }: { since: Since; circuitIds: number[] | undefined; version: number | undefined }) {
  const timeZone = useTimeZone()
  const counts = useChangeCounts({ since: since.at, circuitIds }, version)
  const parts = counts.data?.parts
  return (
    <p className={css.since}>
      <Link href={changesHref(since.at, circuitIds)}>
        {since.of === 'visit' ? 'Changed since' : 'Changed since a week ago,'} {formatDateTime(Date.parse(since.at), timeZone)}
      </Link>
      <span>{parts ? gistText(partOf(parts, 'class'), partOf(parts, 'reading')) : counts.isError ? 'not counted: the server did not answer' : '…'}</span>
    </p>
  )
}
