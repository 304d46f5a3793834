import { filterToQuery, type SpliceFilter } from '@/lib/contract/filter'
import type { Scope } from '@/lib/store/scope'
import { idsThatPass } from '@/lib/store/tile-sources'
import type { SpliceIndex } from './splice-index'

/** As many filters as people look at at once, a byte a splice each. */
const MOST_KEPT = 8
const kept = new WeakMap<SpliceIndex, Map<string, Promise<Uint8Array>>>()

/**
 * Which rows of the index pass what only the store knows of a splice: confidence, surveys, age and evidence. Asked once a filter, index and
 * day, whatever the number of tiles. Null where none of these is asked for.
 */
export async function pickedRows(scope: Scope, { confidences, surveyIds, ages, evidence }: SpliceFilter, index: SpliceIndex, today: number): Promise<Uint8Array | null> {
  const asked: SpliceFilter = { confidences, surveyIds, ages, evidence }
  const query = filterToQuery(asked)
  if (query === '') return null
  const key = `${scope.key} ${today} ${query}`
  const ofIndex = kept.get(index) ?? new Map<string, Promise<Uint8Array>>()
  kept.set(index, ofIndex)
  const known = ofIndex.get(key)
  if (known) return known
  const fresh = idsThatPass(scope, asked).then((ids) => {
    const passing = new Set(ids)
    return Uint8Array.from(index.id, (id) => Number(passing.has(id)))
  })
  ofIndex.set(key, fresh)
  fresh.catch(() => ofIndex.delete(key))
  for (const oldest of ofIndex.keys()) if (ofIndex.size > MOST_KEPT) ofIndex.delete(oldest)
  return fresh
}
