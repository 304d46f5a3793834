import type { LoadQuality } from '../records'
import type { RecordDraft } from './drafts'

/** What makes two rows of a file the same thing, and what they say of it. Key and content are hashes. */
export interface Identity {
  field: string
  name: string
  key: string
  content: string
}

/** Null where rows may repeat: lines are joined, and a structure without a circuit is known by its place alone. */
export function identityOf(draft: RecordDraft, hash: (text: string) => string): Identity | null {
  const named = nameOf(draft)
  if (!named) return null
  const [field, ...names] = named
  const { rowNo: _row, rawRow: _raw, ...values } = draft
  return {
    field, name: names.join(' '), key: hash(`${draft.recordType}\u001e${names.join('\u001e')}`), content: hash(JSON.stringify(values)),
  }
}

/** A planned figure and what was carried may bear the same moment. */
export const plannedFlow = (quality: LoadQuality | null): string | null => (quality === 'expected-peak' || quality === 'post-contingency' ? quality : null)

function nameOf(draft: RecordDraft): [field: string, ...names: (string | number | null)[]] | null {
  switch (draft.recordType) {
    case 'structure': return draft.circuit === null ? null : ['structure', draft.circuit, draft.section, draft.structure]
    case 'splice': return draft.spliceId === null ? null : ['splice_id', draft.circuit, draft.spliceId]
    case 'phasing': return ['position', draft.circuit, draft.structureFrom, draft.structureTo, draft.position]
    case 'crossing': return ['line_distance_m', draft.circuit, draft.lineDistanceM, draft.kind]
    case 'extent': return ['circuit', draft.survey, draft.circuit, draft.structureFrom, draft.structureTo, draft.surveyedOn, draft.method]
    case 'load': return ['taken_at', draft.circuit, draft.section, draft.takenAt?.toISOString() ?? null, plannedFlow(draft.quality)]
    case 'line':
    case 'reading': return null
  }
}
