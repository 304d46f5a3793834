import type { z } from 'zod'
import {
  importsQuery, policyBody, policyPreviewBody, postReadingsQuery, previewFields, readingRows, readingsQuery, searchQuery,
  uploadFields,
} from '@/lib/contract/api'
import { callsQuery, recordCallBody, strikeCallBody } from '@/lib/contract/calls'
import { changesQuery } from '@/lib/contract/changes'
import { clearBody } from '@/lib/contract/decision'
import { spliceExportQuery, spliceFilterQuery, spliceListQuery, tileQuery } from '@/lib/contract/filter'
import { ifItTripsBody } from '@/lib/contract/if-it-trips'
import { placementDecision, reviewQuery } from '@/lib/contract/intake'
import { limitsQuery, limitStepBody, proposeLimitBody } from '@/lib/contract/limits'
import { pageQuery } from '@/lib/contract/page'
import { reviewActBody, reviewActPreviewBody } from '@/lib/contract/review-acts'
import { settingsBody } from '@/lib/contract/settings'
import { neverQuery, surveyFilterQuery, surveyTileQuery, trackTileQuery } from '@/lib/contract/survey-layer'
import { ownerBody, savedViewBody } from '@/lib/contract/watch'
import { toldBody } from '@/lib/contract/urgent'
import { readingRowsSchema } from './reading-row'
import type { AnswerName } from './schemas'

export type Method = 'get' | 'post' | 'put' | 'delete'

export interface Address {
  method: Method
  path: string
  summary: string
  query?: z.ZodObject
  body?: z.ZodType
  /** What the document says of the body where it tells more than what is refused at the door. */
  bodySchema?: Record<string, unknown>
  /** Fields beside the `file` of a multipart form. */
  form?: z.ZodObject
  /** A named schema as JSON, or the media type of something else, or both. */
  answers: (AnswerName | `${string}/${string}`)[]
  /** Statuses of success, the same answer with each; 200 alone where nothing is said. */
  statuses?: Partial<Record<200 | 202 | 204 | 304, string>>
  /** Problems of this address beside those that follow from what it takes. */
  problems?: number[]
}

const TILE = 'application/vnd.mapbox-vector-tile'
const TILE_STATUSES = { 200: 'The tile', 204: 'Nothing lies in this tile', 304: 'What If-None-Match names still holds' }
const CSV = 'text/csv'
const KML = 'application/vnd.google-earth.kml+xml'

type More = Omit<Partial<Address>, 'method' | 'path' | 'summary' | 'answers'>

const address = (method: Method, path: string, summary: string, answer: Address['answers'][number] | Address['answers'], more: More = {}): Address => (
  { method, path, summary, answers: typeof answer === 'string' ? [answer] : answer, ...more })

/** Every address of the API with what it takes and answers. */
export const ADDRESSES: Address[] = [
  address('post', '/api/v1/imports', 'Import a file in the background', 'ImportStatus', {
    form: uploadFields, statuses: { 202: 'The file is here and waits for its turn', 200: 'The same file was imported before, as this' }, problems: [422],
  }),
  address('get', '/api/v1/imports', 'Imports, newest first', 'ImportPage', { query: importsQuery }),
  address('post', '/api/v1/imports/preview', 'What the first rows of a file would become; nothing is stored', 'ImportPreview', { form: previewFields }),
  address('get', '/api/v1/imports/{id}', 'How an import stands, with its report', 'ImportStatus'),
  address('delete', '/api/v1/imports/{id}', 'Cancel an import that waits or runs, undo one that is done', 'UndoneImport', { problems: [409] }),
  address('get', '/api/v1/imports/{id}/issues', 'Row issues in the order of the file', 'RowIssuePage', { query: pageQuery }),
  address('get', '/api/v1/imports/{id}/rejected.csv', 'The rejected rows, to correct and import again', CSV),
  address('post', '/api/v1/readings', 'Import up to 10,000 readings at once', 'ImportReport', {
    query: postReadingsQuery, body: readingRows, bodySchema: readingRowsSchema(), problems: [422],
  }),
  address('get', '/api/v1/readings', 'Readings of one import in the order of its file', 'ReadingPage', { query: readingsQuery }),
  address('get', '/api/v1/readings/{id}', 'A reading with its placement', 'Reading'),
  address('post', '/api/v1/readings/{id}/placement', 'Decide where a reading belongs', 'ReviewItem', { body: placementDecision, problems: [409, 422] }),
  address('delete', '/api/v1/readings/{id}/placement', 'Take the last decision back', 'ReviewItem', { problems: [409] }),
  address('post', '/api/v1/readings/{id}/acknowledge', 'The control room was told of an urgent reading', 'UrgentReading', { body: toldBody, problems: [422] }),
  address('delete', '/api/v1/readings/{id}/acknowledge', 'Take back within a minute that the control room was told', 'UrgentReading', { problems: [409] }),
  address('get', '/api/v1/review', 'Readings that wait for a person, urgent first', 'ReviewPage', { query: reviewQuery }),
  address('post', '/api/v1/urgent/{id}/acknowledge', 'The control room was told of what a notice is about', 'UrgentReading', { body: toldBody, problems: [422] }),
  address('delete', '/api/v1/urgent/{id}/acknowledge', 'Take back within a minute that the control room was told', 'UrgentReading', { problems: [409] }),
  address('get', '/api/v1/urgent', 'Urgent and critical findings that the control room was not told of', 'UrgentList'),
  address('get', '/api/v1/circuits', 'Circuits, the worst first', 'CircuitPage', { query: pageQuery }),
  address('get', '/api/v1/circuits.csv', 'How every circuit stands, the worst first, for a spreadsheet', CSV),
  address('get', '/api/v1/circuits/{id}', 'A circuit with its sections, crossings and phasing', 'CircuitDetail'),
  address('get', '/api/v1/circuits/{id}/health', 'Counts per class, worst splice, coverage', 'CircuitHealth'),
  address('get', '/api/v1/circuits/{id}/coverage', 'Spans in line order with the last look at each phase', 'CoverageList'),
  address('put', '/api/v1/circuits/{id}/if-it-trips', 'Who loses supply when it trips, what isolates it and who is called, all of it by name; null: not known', 'IfItTrips', { body: ifItTripsBody }),
  address('get', '/api/v1/circuits/{id}/joints', 'Sections and splices of a circuit as a question of load takes them', 'CircuitJoints'),
  address('get', '/api/v1/circuits/{id}/strip', 'A circuit straightened: structures, surveyed stretches, crossings and splices in line order, each with whether the filter lets it through', 'CircuitStrip', {
    query: spliceFilterQuery,
  }),
  address('get', '/api/v1/corridors', 'Circuits on the same structures for a quarter or more of the shorter one, by name, and how far they run together', 'CorridorPage', { query: pageQuery }),
  address('get', '/api/v1/coverage', 'Spans by the year in which their phases were last looked at, and those that nobody ever looked at', 'CoverageSummary', { query: surveyFilterQuery }),
  address('get', '/api/v1/coverage/never', 'Stretches of line that nobody ever surveyed, the longest first', 'NeverPage', { query: neverQuery }),
  address('get', '/api/v1/spans/{id}/surveys', 'Who looked at a span, phase by phase, and what of it proves nothing', 'SpanSurveys'),
  address('get', '/api/v1/sections', 'Every section with its ratings, last known load and sizes of barrels', 'SectionList'),
  address('get', '/api/v1/batches', 'Batches of splices, those that fail beyond accident first', 'BatchList'),
  address('get', '/api/v1/splices', 'Splices in service', 'SpliceList', { query: spliceListQuery }),
  address('get', '/api/v1/splices.csv', 'The splices of the list as a table, all of them, each row with as of when it is and the information-handling mark', CSV, { query: spliceExportQuery }),
  address('get', '/api/v1/splices.geojson', 'The same as points of RFC 7946', 'application/geo+json', { query: spliceExportQuery }),
  address('get', '/api/v1/splices.gpx', 'The same as waypoints of GPX 1.1', 'application/gpx+xml', { query: spliceExportQuery }),
  address('get', '/api/v1/splices.kml', 'The same as placemarks of KML 2.2', KML, { query: spliceExportQuery }),
  address('get', '/api/v1/splices/{id}', 'A splice with its assessment, readings and history', 'SpliceDetail'),
  address('get', '/api/v1/splices/{id}/working', 'Formulas, values and sources of the latest assessment', 'Working', { problems: [409] }),
  address('post', '/api/v1/splices/{id}/clear', 'A named engineer lowers a held class, with the cause of the contradiction and a reason', 'SpliceDetail', { body: clearBody, problems: [409, 422] }),
  address('get', '/api/v1/splices/{id}/limits', 'The register of limits of a splice, what is not lifted first', 'LimitList'),
  address('post', '/api/v1/splices/{id}/limits', 'Propose a current limit', 'Limit', { body: proposeLimitBody, problems: [409, 422] }),
  address('get', '/api/v1/limits', 'Limits that are not lifted, the lowest first', 'LimitList', { query: limitsQuery }),
  address('post', '/api/v1/limits/{id}', 'Agree to a limit, accept it with read back, or lift it with a reason', 'Limit', { body: limitStepBody, problems: [409, 422] }),
  address('get', '/api/v1/splices/{id}/calls', 'The log of calls about a splice and looks at it, newest first', 'CallList'),
  address('post', '/api/v1/splices/{id}/calls', 'Note a call, or a look in a peak-load period', 'CallEntry', { body: recordCallBody, problems: [422] }),
  address('put', '/api/v1/splices/{id}/owner', 'Who has taken a splice, by name; null: nobody any more', 'SpliceOwner', { body: ownerBody }),
  address('get', '/api/v1/surveys', 'Surveys with readings, the newest first', 'SurveyList'),
  address('get', '/api/v1/views', 'Saved views of the watch list, by name', 'SavedViewList'),
  address('post', '/api/v1/views', 'Save a filter under a name', 'SavedView', { body: savedViewBody, problems: [409, 422] }),
  address('delete', '/api/v1/views/{id}', 'Delete a saved view; the answer is what it was', 'SavedView'),
  address('get', '/api/v1/calls', 'The log of calls and of what the control room was told, newest first', 'CallPage', { query: callsQuery }),
  address('post', '/api/v1/calls/{id}/strike', 'Strike a wrong entry with a reason; it stays readable', 'CallEntry', { body: strikeCallBody, problems: [409] }),
  address('get', '/api/v1/look-again', 'Urgent and critical splices to look at in this peak-load period, or from the next on', 'LookAgain'),
  address('get', '/api/v1/policy', 'The policy in force', 'PolicyVersion'),
  address('put', '/api/v1/policy', 'A new policy, and the reassessment it starts', 'PolicySaved', { body: policyBody, problems: [422] }),
  address('get', '/api/v1/policy/history', 'Every policy there was, newest first', 'PolicyHistory'),
  address('post', '/api/v1/policy/preview', 'Which splices a policy would reclassify; nothing is stored', 'PolicyPreview', {
    body: policyPreviewBody, problems: [422],
  }),
  address('get', '/api/v1/review/acts', 'The latest acts on many waiting readings at once, newest first', 'ReviewActList'),
  address('post', '/api/v1/review/acts', 'Set many waiting readings aside, or accept the best candidate of each, in the background and as one', 'ReviewAct', { body: reviewActBody, problems: [409, 422] }),
  address('post', '/api/v1/review/acts/preview', 'What such an act would do: how many it settles on which circuits, and why others stay; nothing is stored', 'ReviewActPreview', { body: reviewActPreviewBody, problems: [422] }),
  address('get', '/api/v1/review/acts/{id}', 'How one act stands', 'ReviewAct'),
  address('delete', '/api/v1/review/acts/{id}', 'Take an act back as one, in the background; what was decided otherwise since stays', 'ReviewAct', { problems: [409] }),
  address('get', '/api/v1/jobs/{id}', 'How background work stands', 'JobStatus'),
  address('get', '/api/v1/settings', 'Settings', 'Settings'),
  address('put', '/api/v1/settings', 'Change the settings given', 'Settings', { body: settingsBody, problems: [422] }),
  address('get', '/api/v1/search', 'Circuits, structures, splices and coordinates', 'SearchResult', { query: searchQuery }),
  address('get', '/api/v1/changes', 'What changed since a moment, kind by kind: classes with the reason, notices, conflicts, limits, repairs, readings, and what waits now', 'Changes', { query: changesQuery }),
  address('get', '/api/v1/state', 'Has anything changed, what waits for a person', 'State'),
  address('get', '/api/v1/templates', 'The kinds of files there are', 'TemplateList'),
  address('get', '/api/v1/templates/{file}', 'One kind: KIND.csv (lines.geojson) to fill, KIND.json with fields, units and headers', ['KindDescription', CSV, 'application/geo+json']),
  address('get', '/tiles/splices/{z}/{x}/{y}', 'Vector tile of splices', TILE, { query: tileQuery, statuses: TILE_STATUSES }),
  address('get', '/tiles/circuits/{z}/{x}/{y}', 'Vector tile of circuits, spans and structures', TILE, { query: tileQuery, statuses: TILE_STATUSES }),
  address('get', '/tiles/survey/{z}/{x}/{y}', 'Vector tile of when spans were last looked at', TILE, { query: surveyTileQuery, statuses: TILE_STATUSES }),
  address('get', '/tiles/tracks/{z}/{x}/{y}', 'Vector tile of the tracks of surveys', TILE, { query: trackTileQuery, statuses: TILE_STATUSES }),
  address('get', '/api/openapi.json', 'This document', 'application/json'),
  address('get', '/api/health/live', 'The process answers', 'Live'),
  address('get', '/api/health/ready', 'The store answers too', 'Ready', { problems: [503] }),
]
