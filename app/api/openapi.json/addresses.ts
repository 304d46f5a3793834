import { z } from 'zod'
import {
  circuitDetail, clearBody, cursorQuery, policyBody, policyPreviewBody, postReadingsQuery, previewFields, readingRows, readingsQuery,
  searchQuery, searchResult, stateJson, undoneImport, uploadFields, urgentList,
} from '@/lib/contract/api'
import {
  circuitHealth, circuitSummary, importReport, importStatus, page, reading, reviewItem, rowIssue, spanCoverage, spliceDetail, spliceList, urgentReading,
} from '@/lib/contract/contract'
import { spliceFilterQuery, spliceListQuery } from '@/lib/contract/filter'
import { importPage, importPreview, placementDecision, reviewPage, reviewQuery } from '@/lib/contract/intake'
import { jobStatus, policyHistory, policyPreview, policySaved, policyVersion, settings } from '@/lib/contract/settings'

type Method = 'get' | 'post' | 'put' | 'delete'

export interface Address {
  method: Method
  path: string
  summary: string
  query?: z.ZodObject
  body?: z.ZodType
  /** Fields beside the `file` of a multipart form. */
  form?: z.ZodObject
  /** JSON, or the media type of something else. */
  answer: z.ZodType | string
  status?: number
}

const TILE = 'application/vnd.mapbox-vector-tile'

const address = (method: Method, path: string, summary: string, answer: Address['answer'], rest: Partial<Address> = {}): Address => (
  { method, path, summary, answer, ...rest })

/** Every address of the API with what it takes and answers. */
export const ADDRESSES: Address[] = [
  address('post', '/api/v1/imports', 'Import a file in the background; the same file again answers 200 with what was imported then',
    importStatus, { form: uploadFields, status: 202 }),
  address('get', '/api/v1/imports', 'Imports, newest first', importPage, { query: cursorQuery }),
  address('post', '/api/v1/imports/preview', 'What the first rows of a file would become; nothing is stored', importPreview,
    { form: previewFields }),
  address('get', '/api/v1/imports/{id}', 'How an import stands, with its report', importStatus),
  address('delete', '/api/v1/imports/{id}', 'Undo an import', undoneImport),
  address('get', '/api/v1/imports/{id}/issues', 'Row issues in the order of the file', page(rowIssue), { query: cursorQuery }),
  address('get', '/api/v1/imports/{id}/rejected.csv', 'The rejected rows, to correct and send again', 'text/csv'),
  address('post', '/api/v1/readings', 'Import up to 10,000 readings at once', importReport,
    { query: postReadingsQuery, body: readingRows }),
  address('get', '/api/v1/readings', 'Readings of one import in the order of its file', page(reading), { query: readingsQuery }),
  address('get', '/api/v1/readings/{id}', 'A reading with its placement', reading),
  address('post', '/api/v1/readings/{id}/placement', 'Decide where a reading belongs', reviewItem, { body: placementDecision }),
  address('delete', '/api/v1/readings/{id}/placement', 'Take the last decision back', reviewItem),
  address('post', '/api/v1/readings/{id}/acknowledge', 'The control room was told of an urgent reading', urgentReading),
  address('get', '/api/v1/review', 'Readings that wait for a person, urgent first', reviewPage, { query: reviewQuery }),
  address('get', '/api/v1/urgent', 'Urgent and critical findings that the control room was not told of', urgentList),
  address('get', '/api/v1/circuits', 'Circuits, the worst first', page(circuitSummary)),
  address('get', '/api/v1/circuits.csv', 'How every circuit stands, the worst first, for a spreadsheet', 'text/csv'),
  address('get', '/api/v1/circuits/{id}', 'A circuit with its sections, crossings and phasing', circuitDetail),
  address('get', '/api/v1/circuits/{id}/health', 'Counts per class, worst splice, coverage', circuitHealth),
  address('get', '/api/v1/circuits/{id}/coverage', 'Spans in line order with the last look at each phase', z.object({ items: z.array(spanCoverage) })),
  address('get', '/api/v1/splices', 'Splices in service', spliceList, { query: spliceListQuery }),
  address('get', '/api/v1/splices/{id}', 'A splice with its assessment, readings and history', spliceDetail),
  address('post', '/api/v1/splices/{id}/clear', 'A named engineer lowers a held class, with a reason', spliceDetail, { body: clearBody }),
  address('get', '/api/v1/policy', 'The policy in force', policyVersion),
  address('put', '/api/v1/policy', 'A new policy, and the reassessment it starts', policySaved, { body: policyBody }),
  address('get', '/api/v1/policy/history', 'Every policy there was, newest first', policyHistory),
  address('post', '/api/v1/policy/preview', 'Which splices a policy would reclassify; nothing is stored', policyPreview,
    { body: policyPreviewBody }),
  address('get', '/api/v1/jobs/{id}', 'How background work stands', jobStatus),
  address('get', '/api/v1/settings', 'Settings', settings),
  address('put', '/api/v1/settings', 'Change the settings given', settings, { body: settings.partial() }),
  address('get', '/api/v1/search', 'Circuits, structures, splices and coordinates', searchResult, { query: searchQuery }),
  address('get', '/api/v1/state', 'Has anything changed, what waits for a person', stateJson),
  address('get', '/api/v1/templates/{file}', 'An empty CSV file of one kind', 'text/csv'),
  address('get', '/tiles/splices/{z}/{x}/{y}', 'Vector tile of splices', TILE, { query: spliceFilterQuery }),
  address('get', '/tiles/circuits/{z}/{x}/{y}', 'Vector tile of circuits, spans and structures', TILE, { query: spliceFilterQuery }),
  address('get', '/api/health/live', 'The process answers', z.object({ status: z.literal('live') })),
  address('get', '/api/health/ready', 'The store answers too', z.object({ status: z.literal('ready') })),
]
