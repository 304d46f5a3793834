import { writeProgress, type ImportPhase, type ImportProgress } from '@/lib/store/imports'
import type { Scope } from '@/lib/store/scope'
import { ImportCancelled } from './cancelled'

/** Often enough to look alive. */
const EVERY_MS = 400

export type ToldProgress = (phase: ImportPhase, done: number) => void

/**
 * Tells how far an import is, through a connection of its own, never more than one message at a time, and learns on that way whether
 * somebody has called it off: what comes next then throws.
 */
export class Progress {
  private lastMs = 0
  private phase: ImportPhase | null = null
  private sending: Promise<void> = Promise.resolve()
  private busy = false
  private underWay = true

  constructor(private readonly scope: Scope, private readonly importId: number, private readonly onProgress?: ToldProgress) {}

  /** @throws ImportCancelled */
  tell(at: ImportProgress): void {
    if (!this.underWay) throw new ImportCancelled(this.importId)
    const nowMs = Date.now()
    if (at.phase === this.phase && nowMs - this.lastMs < EVERY_MS) return
    this.onProgress?.(at.phase, (at.phase === 'assessing' ? at.splicesDone : at.rowsDone) ?? 0)
    if (this.busy) return
    this.phase = at.phase
    this.lastMs = nowMs
    this.busy = true
    this.sending = writeProgress(this.scope, this.importId, at)
      .then((underWay) => { this.underWay = underWay })
      .catch(() => undefined) // nobody's rows depend on it
      .finally(() => { this.busy = false })
  }

  /** Resolves when nothing is under way any more. */
  async end(): Promise<void> {
    await this.sending
  }

  /** @throws ImportCancelled where it was called off before it began. */
  async begin(): Promise<void> {
    this.tell({ phase: 'reading', rowsDone: 0 })
    await this.sending
    if (!this.underWay) throw new ImportCancelled(this.importId)
  }
}
