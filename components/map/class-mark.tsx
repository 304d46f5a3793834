import './class-colours.css'
import type { ConditionClass } from '@/lib/condition/types'
import { CLASS_WORD, classColourVar } from './class-colours'
import { CLASS_SHAPES, PAST_SHAPES, SHAPE_BOX, type PastClass } from './class-shapes'

export { CLASS_WORD } from './class-colours'

/** The shape of a condition class, for lists and legends. Decorative unless `labelled`: the word stands beside it. `size` in CSS px. */
export function ClassMark({ class: cls, size = 16, labelled = false }: { class: ConditionClass; size?: number; labelled?: boolean }) {
  const { path, hollow, sign } = CLASS_SHAPES[cls]
  const colour = classColourVar(cls)
  const named = labelled ? { role: 'img', 'aria-label': CLASS_WORD[cls] } : { 'aria-hidden': true }
  return (
    <svg width={size} height={size} viewBox={`0 0 ${SHAPE_BOX} ${SHAPE_BOX}`} {...named}>
      {hollow
        ? <path d={path} fill="none" style={{ stroke: colour }} strokeWidth={hollow.width} strokeDasharray={hollow.dash?.join(' ')} />
        : <path d={path} style={{ fill: colour }} />}
      {sign && <path d={sign} style={{ fill: `var(--on-class-${cls})` }} />}
    </svg>
  )
}

/** The shape of what was of a class and is past its re-measure. Decorative: the words stand beside it. */
export function PastMark({ class: cls, size = 16 }: { class: PastClass; size?: number }) {
  const { outline, outlineWidth, half, halfWidth } = PAST_SHAPES[cls]
  const colour = classColourVar(cls)
  return (
    <svg width={size} height={size} viewBox={`0 0 ${SHAPE_BOX} ${SHAPE_BOX}`} aria-hidden="true" data-past={cls}>
      <path d={outline} fill="none" style={{ stroke: colour }} strokeWidth={outlineWidth} />
      <path d={half} style={halfWidth === 0 ? { fill: colour } : { fill: 'none', stroke: colour }} strokeWidth={halfWidth} />
    </svg>
  )
}
