import { writeProgress, type ImportPhase } from '@/lib/store/imports'
import type { Scope } from '@/lib/store/scope'

/** Often enough to look alive. */
const EVERY_MS = 400

/** Tells how far an import is, through a connection of its own, never more than one message at a time. */
export class Progress {
  private lastMs = 0
  private phase: ImportPhase | null = null
  private sending: Promise<void> = Promise.resolve()
  private busy = false

  constructor(private readonly scope: Scope, private readonly importId: number, private readonly onProgress?: (phase: ImportPhase, rowsDone: number) => void) {}

  tell(phase: ImportPhase, rowsDone = 0, rowsTotal?: number): void {
    const nowMs = Date.now()
    if (phase === this.phase && nowMs - this.lastMs < EVERY_MS) return
    this.onProgress?.(phase, rowsDone)
    if (this.busy) return
    this.phase = phase
    this.lastMs = nowMs
    this.busy = true
    this.sending = writeProgress(this.scope, this.importId, { phase, rowsDone, rowsTotal })
      .catch(() => undefined) // nobody's rows depend on it
      .finally(() => { this.busy = false })
  }

  /** Resolves when nothing is under way any more. */
  async end(): Promise<void> {
    await this.sending
  }
}
