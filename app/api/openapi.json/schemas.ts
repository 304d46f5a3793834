import { z } from 'zod'
import { batchList } from '@/lib/contract/batches'
import { callEntry, callList, callPage, lookAgain } from '@/lib/contract/calls'
import { changes } from '@/lib/contract/changes'
import { circuitDetail, searchResult, stateJson, undoneImport, urgentList } from '@/lib/contract/api'
import {
  circuitHealth, circuitSummary, importReport, importStatus, page, reading, reviewItem, rowIssue, spliceDetail,
  spliceList,
} from '@/lib/contract/contract'
import { corridorPage } from '@/lib/contract/corridors'
import { spanCoverage } from '@/lib/contract/coverage'
import { problem } from '@/lib/contract/problem'
import { ifItTrips } from '@/lib/contract/if-it-trips'
import { importPage, importPreview, kindDescription, reviewPage, templateList } from '@/lib/contract/intake'
import { currentLimit, limitList } from '@/lib/contract/limits'
import { circuitJoints, sectionList } from '@/lib/contract/loading'
import { urgentReading } from '@/lib/contract/urgent'
import { working } from '@/lib/contract/outlook'
import { circuitStrip } from '@/lib/contract/strip'
import { coverageSummary, neverPage, spanSurveys } from '@/lib/contract/survey-layer'
import { savedView, savedViewList, spliceOwner, surveyList } from '@/lib/contract/watch'
import { reviewAct, reviewActList, reviewActPreview } from '@/lib/contract/review-acts'
import { jobStatus, policyHistory, policyPreview, policySaved, policyVersion, settings } from '@/lib/contract/settings'

/** What the API answers, by name: each stands once in the document, and addresses point at it. */
export const ANSWERS = {
  Problem: problem, ImportStatus: importStatus, ImportPage: importPage, ImportPreview: importPreview, ImportReport: importReport,
  UndoneImport: undoneImport, RowIssuePage: page(rowIssue), Reading: reading, ReadingPage: page(reading), ReviewItem: reviewItem,
  ReviewPage: reviewPage, ReviewAct: reviewAct, ReviewActList: reviewActList, ReviewActPreview: reviewActPreview, UrgentReading: urgentReading, UrgentList: urgentList, CircuitPage: page(circuitSummary), CircuitDetail: circuitDetail,
  CircuitHealth: circuitHealth, CorridorPage: corridorPage, CoverageList: z.object({ items: z.array(spanCoverage) }), CoverageSummary: coverageSummary, NeverPage: neverPage, SpanSurveys: spanSurveys,
  CircuitJoints: circuitJoints, CircuitStrip: circuitStrip, SectionList: sectionList,
  BatchList: batchList, SpliceList: spliceList, SpliceDetail: spliceDetail, Working: working, SpliceOwner: spliceOwner, IfItTrips: ifItTrips, SurveyList: surveyList, SavedView: savedView, SavedViewList: savedViewList,
  CallEntry: callEntry, CallList: callList, CallPage: callPage, LookAgain: lookAgain, Limit: currentLimit, LimitList: limitList, PolicyVersion: policyVersion,
  PolicySaved: policySaved, PolicyHistory: policyHistory, PolicyPreview: policyPreview, JobStatus: jobStatus, Settings: settings,
  SearchResult: searchResult, State: stateJson, Changes: changes, KindDescription: kindDescription, TemplateList: templateList,
  Live: z.object({ status: z.literal('live') }), Ready: z.object({ status: z.literal('ready') }),
} satisfies Record<string, z.ZodType>

export type AnswerName = keyof typeof ANSWERS

export const refTo = (name: AnswerName) => ({ $ref: `#/components/schemas/${name}` })

/** As OpenAPI 3.1 has it, which is JSON Schema of 2020-12. */
export function jsonSchemaOf(name: AnswerName): Record<string, unknown> {
  const { $schema: _, ...schema } = z.toJSONSchema(ANSWERS[name], { io: 'input', unrepresentable: 'any' })
  return schema
}
