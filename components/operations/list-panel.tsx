'use client'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { EmptyState, ErrorState } from '@/components/ui/states'
import type { Corridor } from '@/lib/contract/corridors'
import type { useCorridors, useSpliceList } from './queries'
import { NO_CORRIDOR } from './corridor-words'
import { ListBones } from './list-bones'
import { SpliceList, type SpliceListProps } from './splice-list'

const NONE: readonly Corridor[] = []

/** The list with its three other states: loading, refused, empty. */
export function ListPanel({ list, corridors, onShowAll, ...rest }: Omit<SpliceListProps, 'corridors'> & {
  list: ReturnType<typeof useSpliceList>
  corridors: ReturnType<typeof useCorridors>
  onShowAll(): void
}) {
  const failed = list.isError && rest.splices.length === 0 ? list : rest.by === 'corridor' && corridors.isError && !corridors.data ? corridors : null
  if (failed) {
    return (
      <ErrorState
        small
        {...asSentences(failed.error)}
        action={
          <Button size="small" onClick={() => void failed.refetch()}>
            Try again
          </Button>
        }
      />
    )
  }
  if (!list.data || (rest.by === 'corridor' && !corridors.data)) return <ListBones />
  if (rest.splices.length === 0) {
    return (
      <EmptyState
        small
        title="No splice in this filter"
        action={
          <Button size="small" onClick={onShowAll}>
            Show all
          </Button>
        }>
        Either the filter leaves nothing over, or no splice is known yet: import your splice list or a survey&apos;s readings.
      </EmptyState>
    )
  }
  const found = rest.by === 'corridor' ? corridors.data : undefined
  return <SpliceList {...rest} corridors={found ?? NONE} foot={found?.length === 0 ? `${rest.foot}. ${NO_CORRIDOR}.` : rest.foot} />
}
