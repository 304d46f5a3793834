'use client'
import { useEffect, useRef } from 'react'
import { useQueryClient } from '@tanstack/react-query'
import { formatDateTime } from '@/lib/units/time'
import { Button } from './button'
import { useNetworkState } from './network-state'
import { useTimeZone } from './preferences'
import { useToast } from './toast'
import css from './connection-note.module.css'

/**
 * Says on every screen that the server does not answer, and of when what is shown is; what is there stays usable. Once it answers
 * again, whatever failed meanwhile is asked for anew.
 */
export function ConnectionNote() {
  const { isError, data, dataUpdatedAt, isFetching, refetch } = useNetworkState()
  const client = useQueryClient()
  const toast = useToast()
  const timeZone = useTimeZone()
  const lost = isError && data !== undefined
  const wasLost = useRef(false)

  useEffect(() => {
    const ask = () => void refetch()
    addEventListener('offline', ask)
    addEventListener('online', ask)
    return () => {
      removeEventListener('offline', ask)
      removeEventListener('online', ask)
    }
  }, [refetch])

  useEffect(() => {
    if (wasLost.current && !lost) {
      void client.refetchQueries({ type: 'active', predicate: ({ state }) => state.status === 'error' })
      toast({ title: 'The server answers again.' })
    }
    wasLost.current = lost
  }, [lost, client, toast])

  return (
    <div className={css.place} aria-live="polite">
      {lost && (
        <div className={css.note}>
          <span><b>The server does not answer.</b> What is shown is as of {formatDateTime(dataUpdatedAt, timeZone)} and may be out of date.</span>
          <Button size="small" disabled={isFetching} onClick={() => void refetch()}>{isFetching ? 'Asking' : 'Ask again'}</Button>
        </div>
      )}
    </div>
  )
}
