'use client'
import { useQueryClient } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'

/** After a person has written something: what shows it is asked for again, and what the server drew is drawn anew. `shownBy`: only the queries of these names. */
export function useWritten(shownBy?: readonly string[]): () => void {
  const client = useQueryClient()
  const router = useRouter()
  return () => {
    void client.invalidateQueries(shownBy && { predicate: ({ queryKey: [name] }) => typeof name === 'string' && shownBy.includes(name) })
    router.refresh()
  }
}
