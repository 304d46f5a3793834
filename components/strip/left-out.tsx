import { cx } from '@/components/ui/class-names'
import { Button } from '@/components/ui/button'
import { hiddenText, hidesCalling, type HiddenSplices } from './filtered'
import css from './strip.module.css'

/** What the list's filter leaves out of the strip, in words, with the tick that stands for each, and the way back to all of it. */
export function LeftOut({ hidden, onClear }: { hidden: readonly HiddenSplices[]; onClear(): void }) {
  const text = hiddenText(hidden)
  if (!text) return null
  return (
    <p className={css.leftOut} data-left-out>
      <svg width="14" height="9" aria-hidden="true"><rect className={css.line} y="4" width="14" height="1" /><rect className={css.leftOutTick} x="6" y="1" width="1" height="7" /></svg>
      <span role="status" className={cx(hidesCalling(hidden) && css.calling)}>{text}</span>
      <Button size="small" variant="quiet" onClick={onClear}>Clear the filter</Button>
    </p>
  )
}
