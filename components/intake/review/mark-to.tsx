'use client'
import { useState } from 'react'
import { useQueryClient } from '@tanstack/react-query'
import { namesakes, searchFor, type FoundItem } from '@/components/operations/search-query'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { Field } from '@/components/ui/field'
import { useLocalText } from '@/components/ui/use-local-text'
import type { CircuitThere, Position } from './decision'
import css from './panel.module.css'

/**
 * Takes the mark to coordinates, a structure, a place along a span or a splice: of a reading that lies far off, nobody drags it there.
 * Where nothing more is asked of a person the mark goes at once; where a part of the text was not understood, or leads out of its span, it stays.
 */
export function MarkTo({ near, onFound }: { near: readonly CircuitThere[]; onFound(mark: Position, circuits: readonly CircuitThere[]): void }) {
  const client = useQueryClient()
  const local = useLocalText()
  const [text, setText] = useState('')
  const [several, setSeveral] = useState<FoundItem[]>([])
  const [error, setError] = useState('')
  const [taken, setTaken] = useState('')

  const go = async (item: FoundItem) => {
    setSeveral([])
    setError('')
    const circuits = await Promise.all(item.circuits.map(async (name) => {
      const { items } = await client.fetchQuery(searchFor(name))
      return items.find((one) => one.kind === 'circuit' && one.label === name)
    }))
    setTaken(`The mark stands at ${calledOf(item)}.`)
    onFound({ lon: item.lon, lat: item.lat }, circuits.flatMap((one) => (one ? [{ id: one.id, name: one.label }] : [])))
  }
  const search = async () => {
    setError('')
    setTaken('')
    setSeveral([])
    try {
      const { items, note } = await client.fetchQuery(searchFor(text, near.map(({ id }) => id)))
      const places = placesIn(items, text, near.map(({ name }) => name))
      if (note !== undefined) setError(local(note))
      else if (places.length === 0) setError('Nothing is called that. Write latitude and longitude, or a structure with its circuit: 2310 STR 45.')
      if (note === undefined && places.length === 1 && places[0]) await go(places[0])
      else setSeveral(places)
    } catch (e) {
      const told = asSentences(e)
      setError(`${told.title} ${told.remedy}`)
    }
  }
  return (
    <form
      className={css.section}
      onSubmit={(e) => {
        e.preventDefault()
        if (text.trim() !== '') void search()
      }}
    >
      <Field
        label="Take the mark to"
        optional
        value={text}
        maxLength={100}
        onChange={(e) => setText(e.target.value)}
        hint={local('Latitude and longitude, a structure (2310 STR 45), a place along a span (45-46 + {120 m}) or a splice; then move it along the line.')}
        error={error || undefined}
      />
      {taken !== '' && (
        <p className={css.note} role="status">
          {taken}
        </p>
      )}
      {several.length > 1 && <p className={css.note}>Which one?</p>}
      <div className={css.buttons}>
        <Button type="submit" size="small" disabled={text.trim() === ''}>
          Take it there
        </Button>
        {several.map((item) => (
          <Button key={`${item.kind} ${item.id} ${item.label}`} size="small" onClick={() => void go(item)}>
            {calledOf(item)}
          </Button>
        ))}
      </div>
    </form>
  )
}

const calledOf = ({ kind, label, detail }: FoundItem): string =>
  [kind === 'structure' && !/^str/i.test(label) ? `STR ${label}` : label, detail].filter(Boolean).join(', ')

/**
 * What a mark can be put at: a whole circuit is no place. Lines number alike: what stands on the circuits that the reading may belong to is
 * meant before what stands elsewhere. Of several with the name that was typed a person chooses.
 */
export function placesIn(items: FoundItem[], text: string, near: readonly string[] = []): FoundItem[] {
  const places = items.filter(({ kind }) => kind !== 'circuit')
  const alike = namesakes(places, text)
  const named = alike.length > 0 ? alike : places
  const there = named.filter(({ circuits }) => circuits.some((name) => near.includes(name)))
  return there.length > 0 ? there : named
}
