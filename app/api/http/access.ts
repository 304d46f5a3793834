import { allScope } from '@/lib/store/all-scope'
import type { Scope } from '@/lib/store/scope'

export interface Access {
  scope: Scope
  /** Who is written into the audit trail. */
  actor: string
}

/** Who asks and what they may see. Until there are accounts, everybody who reaches the server is one operator who sees everything. */
export const accessOf = (_request: Request): Access => ({ scope: allScope(), actor: 'operator' })
