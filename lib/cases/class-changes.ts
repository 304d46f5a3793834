import { classRank, type Assessment } from '@/lib/condition'
import type { ClassChangesJson } from '@/lib/contract/class-changes'
import type { Scope } from '@/lib/store/scope'
import { spliceNames } from '@/lib/store/splices'
import { database, type Db } from '@/lib/store/transaction'

type ConditionClass = Assessment['class']
type Changed = Omit<ClassChangesJson['splices'][number], 'splice'>

const SHOWN = 50
/** An import may change every splice there is, and fifty of them are named. */
const KEPT = 4096

const worstFirst = (a: Changed, b: Changed): number => classRank(b.to) - classRank(a.to) || classRank(b.from) - classRank(a.from) || a.id - b.id

/** Counts what an act does, or would do, to the classes on show. */
export class ClassChanges {
  private readonly counts = new Map<string, ClassChangesJson['changes'][number]>()
  private named: Changed[] = []
  private total = 0

  add(id: number, from: ConditionClass, to: ConditionClass): void {
    if (from === to) return
    this.total++
    const key = `${from} ${to}`
    const change = this.counts.get(key)
    if (change) change.count++
    else this.counts.set(key, { from, to, count: 1 })
    this.named.push({ id, from, to })
    if (this.named.length > KEPT) this.cut()
  }

  async json(scope: Scope, db: Db = database()): Promise<ClassChangesJson> {
    this.cut()
    const names = await spliceNames(scope, this.named.map(({ id }) => id), db)
    return {
      changes: [...this.counts.values()].sort((a, b) => classRank(b.to) - classRank(a.to) || classRank(b.from) - classRank(a.from)),
      splices: this.named.map((splice) => ({ ...splice, splice: names.get(splice.id) ?? '' })),
      total: this.total,
    }
  }

  private cut(): void {
    this.named = this.named.sort(worstFirst).slice(0, SHOWN)
  }
}
