import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { cache } from 'react'
import { serverId } from '@/app/server-id'
import { shownSettings } from '@/app/shown-settings'
import { shownUnits } from '@/app/shown-units'
import { CallSteps } from '@/components/calls/call-steps'
import { NoteIfItTrips } from '@/components/circuit/note-if-it-trips'
import { CLOSE_ZOOM } from '@/components/operations/view-of'
import { formatSelection, formatView } from '@/components/operations/view-text'
import { DecideAsEngineer } from '@/components/splice/decide-as-engineer'
import { LimitSteps } from '@/components/splice/limit-steps'
import { SpliceSheet } from '@/components/splice/splice-sheet'
import { readAssessment } from '@/components/splice/assessment'
import { classNow } from '@/components/splice/past-re-measure'
import { firstDueMs } from '@/components/splice/due'
import { cx } from '@/components/ui/class-names'
import { PrintFoot, PrintHead } from '@/components/ui/print'
import { SheetTools } from '@/components/ui/sheet-tools'
import css from '@/components/ui/sheet.module.css'
import { allScope } from '@/lib/store/all-scope'
import { getSplice } from '@/lib/store/splice-detail'

export const dynamic = 'force-dynamic'

interface Props {
  params: Promise<{ id: string }>
}

const spliceOf = cache(async (id: number) => (await getSplice(allScope(), id)) ?? notFound())

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const splice = await spliceOf(serverId((await params).id))
  return { title: `${splice.splice}, ${classNow(splice, new Date().getTime())}` }
}

export default async function SplicePage({ params }: Props) {
  const [splice, settings, system] = await Promise.all([spliceOf(serverId((await params).id)), shownSettings(), shownUnits()])
  const { id, splice: label, class: shown, measured_class, assessed_at } = splice
  const nowMs = new Date().getTime()
  const onMap = new URLSearchParams({
    at: formatView({ lon: splice.lon, lat: splice.lat, zoom: CLOSE_ZOOM }),
    sel: formatSelection({ kind: 'splice', id: splice.id }),
  })
  return (
    <div className={cx(css.page, css.desk)}>
      <PrintHead mark={settings.information_mark} />
      <SpliceSheet
        detail={splice}
        system={system}
        timeZone={settings.time_zone}
        letters={settings.phase_letters}
        nowMs={nowMs}
        wide
        tools={<SheetTools onMap={onMap} />}
        limitSteps={<LimitSteps detail={splice} />}
        callSteps={<CallSteps detail={{ id, splice: label, circuit: splice.circuit, class: shown, history: splice.history, owner: splice.owner }} />}
        noteTrip={<NoteIfItTrips circuitId={splice.circuit_id} circuit={splice.circuit} trip={splice.if_it_trips} />}
        decide={<DecideAsEngineer detail={{ id, splice: label, class: shown, measured_class, assessed_at }} />}
      />
      <PrintFoot
        utility={settings.utility_name}
        askedAtMs={nowMs}
        dueAtMs={firstDueMs(readAssessment(splice.assessment)?.nextActions ?? [], splice, nowMs)}
        pressing={{ critical: Number(shown === 'critical'), urgent: Number(shown === 'urgent') }}
      />
    </div>
  )
}
