import { cx } from '@/components/ui/class-names'
import { Skeleton } from '@/components/ui/states'
import css from './splice-list.module.css'

const ROWS = 14

/** Rows as they will come, before they are there. */
export function ListBones({ className }: { className?: string }) {
  return (
    <div className={cx(css.bones, className)} aria-busy="true">
      {Array.from({ length: ROWS }, (_, i) => (
        <div key={i} className={css.bone}>
          <Skeleton width={16} height={16} className={css.boneMark} />
          <Skeleton width="55%" height={12} />
          <Skeleton width={34} height={12} />
          <Skeleton width="75%" height={10} />
          <Skeleton width={48} height={10} />
        </div>
      ))}
    </div>
  )
}
