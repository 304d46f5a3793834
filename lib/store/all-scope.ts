import type { Scope } from './scope'

/** Everything. Only commands and the HTTP layer may make it, until accounts say who sees what. */
export const allScope = (): Scope => ({ key: 'all', circuitIds: null }) as unknown as Scope
