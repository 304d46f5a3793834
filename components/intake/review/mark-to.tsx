'use client'
import { useState } from 'react'
import { useQueryClient } from '@tanstack/react-query'
import { namesakes, searchFor, type FoundItem } from '@/components/operations/search-query'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { Field } from '@/components/ui/field'
import type { CircuitThere, Position } from './decision'
import css from './panel.module.css'

/** Takes the mark to coordinates, a structure or a splice: of a reading that lies far off, nobody drags it there. */
export function MarkTo({ onFound }: { onFound(mark: Position, circuits: readonly CircuitThere[]): void }) {
  const client = useQueryClient()
  const [text, setText] = useState('')
  const [several, setSeveral] = useState<FoundItem[]>([])
  const [error, setError] = useState('')

  const go = async (item: FoundItem) => {
    setSeveral([])
    const circuits = await Promise.all(item.circuits.map(async (name) => {
      const { items } = await client.fetchQuery(searchFor(name))
      return items.find((one) => one.kind === 'circuit' && one.label === name)
    }))
    onFound({ lon: item.lon, lat: item.lat }, circuits.flatMap((one) => (one ? [{ id: one.id, name: one.label }] : [])))
  }
  const search = async () => {
    setError('')
    setSeveral([])
    try {
      const places = placesIn((await client.fetchQuery(searchFor(text))).items, text)
      if (places.length === 0) setError('Nothing is called that. Write latitude and longitude, or a structure with its circuit: 2310 STR 45.')
      else if (places.length === 1 && places[0]) await go(places[0])
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
        hint="Latitude and longitude, a structure (2310 STR 45) or a splice; then move it along the line."
        error={error || undefined}
      />
      <div className={css.buttons}>
        <Button type="submit" size="small" disabled={text.trim() === ''}>
          Take it there
        </Button>
        {several.map((item) => (
          <Button key={`${item.kind} ${item.id}`} size="small" onClick={() => void go(item)}>
            {[item.label, item.detail].filter(Boolean).join(', ')}
          </Button>
        ))}
      </div>
    </form>
  )
}

/** What a mark can be put at: a whole circuit is no place. Of several with the name that was typed a person chooses. */
export function placesIn(items: FoundItem[], text: string): FoundItem[] {
  const places = items.filter(({ kind }) => kind !== 'circuit')
  const alike = namesakes(places, text)
  return alike.length > 0 ? alike : places
}
