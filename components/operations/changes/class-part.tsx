'use client'
import { ClassMark } from '@/components/map/class-mark'
import { useTimeZone } from '@/components/ui/preferences'
import type { ItemOf } from '@/lib/contract/changes'
import { formatDateTime } from '@/lib/units/time'
import { Part, SpliceCell, type PartProps } from './part'
import { causeWords, directionsText } from './words'
import css from './changes.module.css'

const HEADS = ['Splice', 'Class', 'Why', 'Position', 'Shown so since']

/** Splices whose class is another than then: what became worse first, the worst of it on top. */
export function ClassPart(props: PartProps<'class'>) {
  const timeZone = useTimeZone()
  return <Part {...props} heads={HEADS} note={`${directionsText(props.part.directions)}. What went up and came down again between then and now is not among them.`} row={(item) => <Row key={item.id} item={item} timeZone={timeZone} />} />
}

function Row({ item, timeZone }: { item: ItemOf<'class'>; timeZone: string }) {
  const { from, to, held, direction, decided } = item
  return (
    <tr>
      <SpliceCell of={item} />
      <td data-label="Class" className={css.classes}>
        <span className={css.step}>
          <ClassMark class={from} size={14} />
          {from}
        </span>
        <span className={css.step}>
          <i aria-hidden="true">→</i>
          <span className="visually-hidden">to</span>
          <ClassMark class={to} size={14} />
          <b className={direction === 'rise' ? css.rise : undefined}>
            {to}
            {held ? ', held' : ''}
          </b>
        </span>
      </td>
      <td data-label="Why">
        {item.why}
        <small>
          {decided ? `${decided.engineer} decided: “${decided.reason}”` : causeWords(item)}
        </small>
      </td>
      <td data-label="Position">{item.position_text}</td>
      <td data-label="Shown so since" className={css.when}>{formatDateTime(Date.parse(item.at), timeZone)}</td>
    </tr>
  )
}
