'use client'
import { useState } from 'react'
import Link from 'next/link'
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { Button, IconButton } from '@/components/ui/button'
import { asSentences, fetchJson, sending } from '@/components/ui/fetch-json'
import { Field } from '@/components/ui/field'
import { Icon } from '@/components/ui/icons'
import { Popover } from '@/components/ui/popover'
import { useToast } from '@/components/ui/toast'
import { filterToQuery, type SpliceFilter } from '@/lib/contract/filter'
import { savedView, savedViewList } from '@/lib/contract/watch'
import css from './saved-views.module.css'

const KEY = ['views']
const hrefOf = (query: string): string => `/operations${query === '' ? '' : `?${query}`}`
const post = (view: { name: string; query: string }) =>
  fetchJson('/api/v1/views', savedView, sending('POST', view))

/** Filters that people gave a name, for everybody: chosen, copied as a link, deleted with a way back. */
export function SavedViews({ filter, className }: { filter: SpliceFilter; className?: string }) {
  const client = useQueryClient()
  const toast = useToast()
  const views = useQuery({ queryKey: KEY, queryFn: ({ signal }) => fetchJson('/api/v1/views', savedViewList, { signal }), select: (list) => list.items })
  const [name, setName] = useState('')
  const query = filterToQuery(filter)
  const onSuccess = () => client.invalidateQueries({ queryKey: KEY })
  const refused = (e: unknown) => {
    const { title, remedy } = asSentences(e)
    toast({ title, detail: remedy, tone: 'error' })
  }
  const save = useMutation({ mutationFn: post, onSuccess, onError: refused })
  const remove = useMutation({
    mutationFn: (id: number) => fetchJson(`/api/v1/views/${id}`, savedView, { method: 'DELETE' }),
    onSuccess: (gone) => {
      void onSuccess()
      toast({ title: `${gone.name} deleted`, undo: { run: () => save.mutate({ name: gone.name, query: gone.query }) } })
    },
    onError: refused,
  })
  const copy = (of: string) => void navigator.clipboard.writeText(new URL(hrefOf(of), location.href).href)
    .then(() => toast({ title: 'Link copied' }), () => toast({ title: 'The browser did not allow copying.', tone: 'error' }))
  return (
    <Popover
      label="Saved views"
      trigger={
        <Button size="small" className={className}>
          <span>Views</span>
          <Icon name="down" />
        </Button>
      }>
      <div className={css.views}>
        {views.data && views.data.length > 0 && (
          <ul aria-label="Saved views">
            {views.data.map((view) => (
              <li key={view.id}>
                <Link href={hrefOf(view.query)} aria-current={view.query === query ? 'true' : undefined}>{view.name}</Link>
                <Button size="small" variant="quiet" aria-label={`Copy link: ${view.name}`} onClick={() => copy(view.query)}>Copy link</Button>
                <IconButton icon="close" size="small" label={`Delete ${view.name}`} onClick={() => remove.mutate(view.id)} />
              </li>
            ))}
          </ul>
        )}
        {views.data?.length === 0 && <p className="muted">None yet: set the filter and give it a name. Everybody sees it.</p>}
        <form
          className={css.save}
          onSubmit={(e) => {
            e.preventDefault()
            if (name.trim() !== '') save.mutate({ name: name.trim(), query }, { onSuccess: () => setName('') })
          }}>
          <Field label="Name of the present filter" maxLength={80} autoComplete="off" value={name} onChange={(e) => setName(e.target.value)} />
          <Button size="small" type="submit" busy={save.isPending} disabled={name.trim() === ''}>Save</Button>
        </form>
      </div>
    </Popover>
  )
}
