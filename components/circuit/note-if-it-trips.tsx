'use client'
import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '@/components/ui/button'
import { Dialog } from '@/components/ui/dialog'
import { DialogForm } from '@/components/ui/dialog-form'
import { fetchJson, sending } from '@/components/ui/fetch-json'
import { Field, TextArea } from '@/components/ui/field'
import { keepOwnName, ownName } from '@/components/ui/own-name'
import { useWritten } from '@/components/ui/use-written'
import { ifItTrips, type IfItTrips } from '@/lib/contract/if-it-trips'

interface Of { circuitId: number; circuit: string; trip: IfItTrips }

const TEXTS = [
  { name: 'loses_supply', label: 'Who loses supply', hint: 'Customers, load, whom to warn first; what is left with a second outage.' },
  { name: 'isolated_by', label: 'What isolates it', hint: 'Breakers and line switches at each end and tap, as operations names them.' },
  { name: 'called', label: 'Who is called', hint: 'In order, a line each: desk or person, and the number.' },
] as const
const HOURS = [
  { name: 'on_site_h', label: 'Crew on site in', least: 0, most: 168 },
  { name: 'repair_h', label: 'Repair takes', least: 0.1, most: 1000 },
  { name: 'recall_h', label: 'Handed back after recall in', least: 0, most: 168 },
] as const

type Values = Record<(typeof TEXTS)[number]['name'] | (typeof HOURS)[number]['name'] | 'noted_by', string>

/** Where a named person notes who loses supply when a circuit trips, what isolates it and who is called. */
export function NoteIfItTrips(of: Of) {
  const [open, setOpen] = useState(false)
  const verb = of.trip.noted_by === null ? 'Note it' : 'Correct it'
  return (
    <Dialog
      open={open} onOpenChange={setOpen} title={`If ${of.circuit} trips`} trigger={<Button size="small" aria-label={`${verb}: supply, isolation, calls`}>{verb}</Button>}
      description="Stands on the sheet of every splice of this circuit. What is left empty is not known, and says whom to ask. The trail keeps what stood here before.">
      {open && <NoteForm {...of} onDone={() => setOpen(false)} />}
    </Dialog>
  )
}

const initial = (trip: IfItTrips): Values => ({
  loses_supply: trip.loses_supply ?? '', isolated_by: trip.isolated_by ?? '', called: trip.called ?? '',
  on_site_h: trip.on_site_h?.toString() ?? '', repair_h: trip.repair_h?.toString() ?? '', recall_h: trip.recall_h?.toString() ?? '', noted_by: ownName(),
})

/** As it is sent: what is empty is not known. */
export const tripBody = (values: Values) => ({
  ...Object.fromEntries(TEXTS.map(({ name }) => [name, values[name].trim() || null])),
  ...Object.fromEntries(HOURS.map(({ name }) => [name, values[name].trim() === '' ? null : Number(values[name].replace(',', '.'))])),
  noted_by: values.noted_by.trim(),
})

function NoteForm({ circuitId, trip, onDone }: Of & { onDone(): void }) {
  const written = useWritten()
  const [values, setValues] = useState(() => initial(trip))
  const [tried, setTried] = useState(false)
  const set = (name: keyof Values) => (e: { target: { value: string } }) => setValues({ ...values, [name]: e.target.value })
  const within = ({ name, least, most }: (typeof HOURS)[number]): boolean => {
    const given = values[name].trim()
    const h = Number(given.replace(',', '.'))
    return given === '' || h >= least && h <= most
  }
  const put = useMutation({
    mutationFn: () => fetchJson(`/api/v1/circuits/${circuitId}/if-it-trips`, ifItTrips, sending('PUT', tripBody(values))),
    onSuccess: () => {
      onDone()
      written()
    },
  })
  return (
    <DialogForm
      verb="Note it"
      busy={put.isPending}
      failed={put.error}
      onSubmit={() => {
        setTried(true)
        if (values.noted_by.trim() === '' || !HOURS.every(within)) return
        keepOwnName(values.noted_by)
        put.mutate()
      }}>
      {TEXTS.map(({ name, label, hint }) => (
        <TextArea key={name} label={label} hint={hint} optional maxLength={300} rows={name === 'called' ? 3 : 2} value={values[name]} onChange={set(name)} />
      ))}
      {HOURS.map((hours) => (
        <Field
          key={hours.name} label={hours.label} unit="h" optional inputMode="decimal" value={values[hours.name]} onChange={set(hours.name)}
          error={tried && !within(hours) ? `Enter hours from ${hours.least} to ${hours.most}, or leave it empty.` : undefined} />
      ))}
      <Field
        label="Noted by" hint="By name." required maxLength={200} autoComplete="name" value={values.noted_by} onChange={set('noted_by')}
        error={tried && values.noted_by.trim() === '' ? 'Name who says so.' : undefined} />
    </DialogForm>
  )
}
