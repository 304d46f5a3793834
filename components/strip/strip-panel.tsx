'use client'
import { useId, useMemo, useState } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { positionText } from '@/components/splice/position'
import { Button, IconButton } from '@/components/ui/button'
import { Dialog } from '@/components/ui/dialog'
import { asSentences } from '@/components/ui/fetch-json'
import { NativeSelect } from '@/components/ui/native-select'
import { ErrorState, Skeleton } from '@/components/ui/states'
import type { CircuitSummary } from '@/lib/contract/contract'
import type { CircuitStrip } from '@/lib/contract/strip'
import { formatRatio } from '@/lib/units/format'
import { isWhole, within, zoomed, type Stretch } from './axis'
import { filtered } from './filtered'
import { findingPaint, type Patterns } from './lane'
import { LeftOut } from './left-out'
import { byWorst } from './marks'
import type { AxisSplice, StripModel } from './model'
import { StripDrawing } from './strip-drawing'
import { StripTable } from './strip-table'
import { standingText, stretchText, type StripWords } from './words'
import css from './strip.module.css'

export interface StripPanelProps {
  strip: CircuitStrip | undefined
  /** Of all its splices, whatever the filter. */
  model: StripModel | null
  error: unknown
  onRetry(): void
  /** Null: nothing says which circuit. */
  circuitId: number | null
  /** Worst first. */
  circuits: readonly Pick<CircuitSummary, 'id' | 'name' | 'line_name' | 'counts'>[]
  onCircuit(id: number): void
  /** Null: all of it. */
  stretch: Stretch | null
  onStretch(stretch: Stretch): void
  /** Of the list, which the strip follows. */
  onClearFilter(): void
  selectedId: number | null
  onPick(splice: AxisSplice): void
  onSheet: (() => void) | null
  folded: boolean
  onFold(folded: boolean): void
  words: StripWords
  phone: boolean
}

const LANES_PX = 96
const PHONE_LANES_PX = 168
const ROWS_SHOWN = 200
const WORST_SHOWN = 12
const CALLING = ['critical', 'urgent'] as const

/** Plan above, line straightened below: the panel with its head, its other states and its twin as a table. */
export function StripPanel(props: StripPanelProps) {
  const { strip, model: whole, folded, onFold, phone, words, onPick, circuitId, error, selectedId, onClearFilter } = props
  const shown = useMemo(() => (strip && whole ? filtered(whole, strip.circuit, selectedId) : null), [strip, whole, selectedId])
  const model = shown?.model
  const hidden = shown?.hidden ?? []
  const [asTable, setAsTable] = useState(false)
  const stretch = model && (props.stretch ? within(props.stretch, model.whole) : model.whole)
  const ready = strip && model && stretch
  return (
    <div className={css.panel}>
      <div className={css.head}>
        <h2>Strip{strip && circuitId !== null && <span>{strip.circuit}</span>}</h2>
        {ready && <span className={css.shown}>{stretchText(stretch, model.laid, words.system)}</span>}
        {ready && !folded && !phone && <SurveyKey />}
        <span className={css.tools} style={ready && !folded && !phone ? undefined : { marginLeft: 'auto' }}>
          {ready && !folded && (
            <>
              <Button size="small" variant="quiet" onClick={() => setAsTable(true)}>As a table</Button>
              <Button size="small" variant="quiet" aria-label="Zoom the strip out" onClick={() => props.onStretch(zoomed(stretch, (stretch.fromM + stretch.toM) / 2, 2, model.whole))}>−</Button>
              <Button size="small" variant="quiet" aria-label="Zoom the strip in" onClick={() => props.onStretch(zoomed(stretch, (stretch.fromM + stretch.toM) / 2, 0.5, model.whole))}>+</Button>
              <IconButton icon="whole" size="small" label="Show the whole line" disabled={isWhole(stretch, model.whole)} onClick={() => props.onStretch(model.whole)} />
            </>
          )}
          {!phone && <IconButton icon={folded ? 'up' : 'down'} size="small" label={folded ? 'Show the strip' : 'Fold the strip'} aria-expanded={!folded} onClick={() => onFold(!folded)} />}
        </span>
      </div>
      {!folded && ready && <LeftOut hidden={hidden} onClear={onClearFilter} />}
      {!folded && (
        <div className={css.body}>
          {circuitId === null ? <NoCircuit {...props} />
            : ready ? (
              <>
                {phone && <Chosen {...props} />}
                <StripDrawing
                  model={model} stretch={stretch} onStretch={props.onStretch} selectedId={props.selectedId} onPick={onPick} words={words}
                  label={`Strip of ${strip.circuit}`} lanesPx={phone ? PHONE_LANES_PX : LANES_PX} narrow={phone}
                />
                {phone && <InStretch {...props} model={model} stretch={stretch} />}
              </>
            ) : error ? (
              <ErrorState small {...asSentences(error)} action={<Button size="small" onClick={props.onRetry}>Try again</Button>} />
            ) : <div className={css.bones} aria-busy="true">{[0, 1, 2, 3].map((i) => <Skeleton key={i} height={12} />)}</div>}
        </div>
      )}
      {ready && (
        <Dialog wide open={asTable} onOpenChange={setAsTable} title={`${strip.circuit}, in line order`}>
          <StripTable strip={strip} model={model} hidden={hidden} onClearFilter={onClearFilter} words={words} onPick={(splice) => { setAsTable(false); onPick(splice) }} />
        </Dialog>
      )}
    </div>
  )
}

function NoCircuit({ circuits, onCircuit }: StripPanelProps) {
  const byName = useMemo(() => [...circuits].sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true })), [circuits])
  // In the order of the API, the worst first.
  const worst = circuits.filter(({ counts }) => CALLING.some((cls) => counts[cls] > 0)).slice(0, WORST_SHOWN)
  return (
    <div className={css.still}>
      <p>Select a circuit or a splice to straighten its line.</p>
      <div className={css.worst}>
        {worst.map(({ id, name, counts }) => (
          <button key={id} type="button" onClick={() => onCircuit(id)}>
            <b>{name}</b>
            {CALLING.map((cls) => counts[cls] > 0 && <span key={cls}><ClassMark class={cls} size={13} />{counts[cls]}<span className="visually-hidden"> {cls}</span></span>)}
          </button>
        ))}
      </div>
      <NativeSelect label="Circuit to straighten" value="" onChange={(e) => onCircuit(Number(e.target.value))}>
        <option value="" disabled>Choose a circuit</option>
        {byName.map(({ id, name, line_name: line }) => <option key={id} value={id}>{line ? `${name}, ${line}` : name}</option>)}
      </NativeSelect>
    </div>
  )
}

/** What the bands below the marks say. */
function SurveyKey() {
  const id = useId()
  const patterns: Patterns = { old: `${id}-dots`, inconclusive: `${id}-hatch` }
  const key = [
    ['recent', 'conclusive'], ['older', 'longer than 2 years ago'], ['old', 'than 6'], ['inconclusive', 'proves nothing'], ['never', 'never'],
  ] as const
  return (
    <div className={css.key}>
      <svg width="0" height="0" aria-hidden="true" className={css.defs}>
        <pattern id={patterns.old} width="4" height="4" patternUnits="userSpaceOnUse"><circle cx="2" cy="2" r="0.9" className={css.dot} /></pattern>
        <pattern id={patterns.inconclusive} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="1.2" height="5" className={css.hatch} /></pattern>
      </svg>
      <span className={css.wordy}>Looked at:</span>
      {key.map(([finding, text]) => (
        <span key={finding} className={finding === 'older' || finding === 'old' ? css.wordy : undefined}>
          <svg width="14" height="7" aria-hidden="true"><rect width="14" height="7" {...findingPaint(finding, patterns)} /></svg>
          {text}
        </span>
      ))}
      <span className={css.wordy}>half as high: exceptions only</span>
    </div>
  )
}

/** On a phone the sheet would lie over the strip: it opens when asked for. */
function Chosen({ strip, selectedId, onSheet }: StripPanelProps) {
  const chosen = strip?.splices.find(({ id }) => id === selectedId)
  if (!chosen || !onSheet) return null
  return <p className={css.chosen}><span><b>{chosen.splice}</b> {chosen.class}{chosen.ratio === null ? '' : `, measured ratio ${formatRatio(chosen.ratio)}`}</span><Button size="small" onClick={onSheet}>Show the sheet</Button></p>
}

/** Under the drawing of a phone: what stands in the stretch, worst first. */
function InStretch({ model, stretch, words, selectedId, onPick }: StripPanelProps & { model: StripModel; stretch: Stretch }) {
  const shown = useMemo(() => model.splices.filter(({ axisM }) => axisM >= stretch.fromM && axisM <= stretch.toM).sort(byWorst), [model, stretch])
  return (
    <div className={css.rows}>
      <h3>{shown.length} {shown.length === 1 ? 'splice' : 'splices'} in this stretch, worst first{shown.length > ROWS_SHOWN ? `; the worst ${ROWS_SHOWN} below` : ''}</h3>
      {shown.slice(0, ROWS_SHOWN).map((s) => (
        <button key={s.id} type="button" aria-pressed={s.id === selectedId} onClick={() => onPick(s)}>
          <ClassMark class={s.class} size={16} />
          <span><b>{s.splice}</b> {standingText(s, words.nowMs)}<br /><small>{positionText({ ...s, circuit_side: null, position: s.phase ? null : s.position }, words.system, words.letters)}</small></span>
          <b>{s.ratio === null ? '–' : formatRatio(s.ratio)}</b>
        </button>
      ))}
    </div>
  )
}
