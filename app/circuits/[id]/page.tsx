import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { cache } from 'react'
import { serverId } from '@/app/server-id'
import { shownSettings } from '@/app/shown-settings'
import { shownUnits } from '@/app/shown-units'
import { pressingOf } from '@/components/health/health-rows'
import { CircuitSheet } from '@/components/circuit/circuit-sheet'
import { CircuitSplices } from '@/components/circuit/circuit-splices'
import { CoverageStrip } from '@/components/circuit/coverage-strip'
import { NoteIfItTrips } from '@/components/circuit/note-if-it-trips'
import { viewOfBox } from '@/components/operations/view-of'
import { formatSelection, formatView } from '@/components/operations/view-text'
import { PrintFoot, PrintHead } from '@/components/ui/print'
import { SheetTools } from '@/components/ui/sheet-tools'
import css from '@/components/ui/sheet.module.css'
import { allScope } from '@/lib/store/all-scope'
import { getCircuit } from '@/lib/store/circuits'
import { coverageOfCircuit } from '@/lib/store/coverage'
import { getHealth } from '@/lib/store/health'
import { listSplices } from '@/lib/store/splices'

export const dynamic = 'force-dynamic'

interface Props {
  params: Promise<{ id: string }>
}

const DESK = { widthPx: 720, heightPx: 800 }
const circuitOf = cache(async (id: number) => (await getCircuit(allScope(), id)) ?? notFound())

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const circuit = await circuitOf(serverId((await params).id))
  return { title: `Circuit ${circuit.name}` }
}

export default async function CircuitPage({ params }: Props) {
  const id = serverId((await params).id)
  const scope = allScope()
  const [circuit, health, spans, splices, settings, system] = await Promise.all([
    circuitOf(id),
    getHealth(scope, id),
    coverageOfCircuit(scope, id),
    listSplices(scope, { filter: { circuitIds: [id] }, sort: 'unsound', limit: 500 }),
    shownSettings(),
    shownUnits(),
  ])
  const words = { system, timeZone: settings.time_zone, letters: settings.phase_letters, nowMs: new Date().getTime() }
  const onMap = new URLSearchParams({
    ...(circuit.bbox ? { at: formatView(viewOfBox(circuit.bbox, DESK)) } : {}),
    sel: formatSelection({ kind: 'circuit', id }),
  })
  return (
    <div className={css.page}>
      <PrintHead mark={settings.information_mark} />
      <CircuitSheet
        circuit={circuit}
        health={health ?? null}
        {...words}
        wide
        tools={<SheetTools onMap={onMap} />}
        note={<NoteIfItTrips circuitId={id} circuit={circuit.name} trip={circuit.if_it_trips} />}
      />
      <section className={css.part}>
        <h2>Looked at, span by span</h2>
        <CoverageStrip spans={spans} letters={words.letters} nowMs={words.nowMs} />
      </section>
      <section className={css.part}>
        <h2>Splices, worst first, not known before sound</h2>
        <CircuitSplices splices={splices.items} total={splices.total ?? splices.items.length} circuitId={id} words={words} />
      </section>
      <PrintFoot utility={settings.utility_name} askedAtMs={words.nowMs} pressing={pressingOf([circuit])} />
    </div>
  )
}
