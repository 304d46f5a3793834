'use client'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { EmptyState, ErrorState } from '@/components/ui/states'
import type { useSpliceList } from './queries'
import { ListBones } from './list-bones'
import { SpliceList, type SpliceListProps } from './splice-list'

/** The list with its three other states: loading, refused, empty. */
export function ListPanel({ list, onShowAll, ...rest }: SpliceListProps & { list: ReturnType<typeof useSpliceList>; onShowAll(): void }) {
  if (list.isError && rest.splices.length === 0) {
    return (
      <ErrorState
        small
        {...asSentences(list.error)}
        action={
          <Button size="small" onClick={() => void list.refetch()}>
            Try again
          </Button>
        }
      />
    )
  }
  if (!list.data) return <ListBones />
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
  return <SpliceList {...rest} />
}
