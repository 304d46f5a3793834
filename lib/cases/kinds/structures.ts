import { sectionRows } from '@/lib/store/network-rows'
import { gather, NOTHING_LOADED, type Loader } from '../importing/context'
import { sectionLine } from '../network/conductor'
import { rebuildSpans } from '../network/rebuild-spans'
import { loadStructures } from '../network/structures'

/** Structures onto the lines that are stored; spans, splices and patrols follow. */
export const loadStructuresFile: Loader<'structures'> = async (context, source) => {
  const { records, rawOf } = await gather(source)
  context.progress('placing')
  const lines = (await sectionRows(context.scope, context.tx)).map(sectionLine)
  const { sectionIds, alreadyHeld } = await loadStructures(context, lines, records, rawOf)
  context.progress('storing')
  const { circuitIds } = await rebuildSpans(context.scope, context.tx, sectionIds)
  return { ...NOTHING_LOADED, alreadyHeld, circuitIds }
}
