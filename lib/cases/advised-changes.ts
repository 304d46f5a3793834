import { classRank, type Assessment } from '@/lib/condition'
import { allowedA } from '@/lib/condition/governing-limit'
import type { AdvisedChangesJson } from '@/lib/contract/settings'
import { openLimits } from '@/lib/store/limits'
import type { Scope } from '@/lib/store/scope'
import { spliceNames } from '@/lib/store/splices'
import { database, type Db } from '@/lib/store/transaction'

type Limit = Assessment['limit']
type Changed = Omit<AdvisedChangesJson['splices'][number], 'splice'>

const SHOWN = 50
/** A policy may change every figure there is, and fifty of them are named. */
const KEPT = 4096

const acute = ({ class: of }: Pick<Changed, 'class'>): boolean => of === 'urgent' || of === 'critical'

/** How far a figure rises, as a share; what was or will be none stands behind what rises and before what falls. */
const riseOf = ({ from_a: from, to_a: to }: Changed): number => (from === null || to === null ? 0 : to / from - 1)

const mostPressing = (a: Changed, b: Changed): number =>
  Number(acute(b)) - Number(acute(a)) || Number(b.over_in_force) - Number(a.over_in_force) || classRank(b.class) - classRank(a.class) || riseOf(b) - riseOf(a) || a.id - b.id

/** Counts what a policy would do to the currents that splices are advised to carry. */
export class AdvisedChanges {
  private readonly counts = { rise: 0, fall: 0, none_before: 0, none_after: 0, over_in_force: 0, acute: 0 }
  private named: Changed[] = []

  private constructor(private readonly inForceA: ReadonlyMap<number, number>) {}

  static async of(scope: Scope, nowMs: number): Promise<AdvisedChanges> {
    const limits = await openLimits(scope, null, nowMs)
    return new AdvisedChanges(new Map(limits.flatMap(({ splice_id: id, line_a: lineA, standing }) => (standing === 'in-force' ? [[id, lineA] as const] : []))))
  }

  /** @param shown the class on show now */
  add(id: number, shown: Changed['class'], from: Limit, to: Limit): void {
    const [fromA, toA] = [from, to].map((limit) => (limit ? allowedA(limit.lineA) : null)) as [number | null, number | null]
    if (fromA === toA) return
    // A splice that does not limit its section has the section's rating, and one that becomes or was sound has no figure: neither was or is held back.
    if ((fromA === null && to?.limitedBy === 'section') || (toA === null && from?.limitedBy === 'section')) return
    const inForceA = this.inForceA.get(id) ?? null
    const over = inForceA !== null && toA !== null && toA > inForceA && (fromA === null || toA > fromA)
    const { counts } = this
    if (fromA === null) counts.none_before++
    else if (toA === null) counts.none_after++
    else if (toA > fromA) counts.rise++
    else counts.fall++
    if (over) counts.over_in_force++
    const changed = { id, class: shown, from_a: fromA, to_a: toA, in_force_a: inForceA, over_in_force: over }
    if (acute(changed)) counts.acute++
    this.named.push(changed)
    if (this.named.length > KEPT) this.cut()
  }

  async json(scope: Scope, db: Db = database()): Promise<AdvisedChangesJson> {
    this.cut()
    const names = await spliceNames(scope, this.named.map(({ id }) => id), db)
    const { rise, fall, none_before: before, none_after: after } = this.counts
    return { ...this.counts, total: rise + fall + before + after, splices: this.named.map((one) => ({ ...one, splice: names.get(one.id) ?? '' })) }
  }

  private cut(): void {
    this.named = this.named.sort(mostPressing).slice(0, SHOWN)
  }
}
