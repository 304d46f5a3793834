import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { neverQuery, toSurveyFilter } from '@/lib/contract/survey-layer'
import { pageOfNever } from '@/lib/tiles/survey/coverage-answers'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope, query }) => json(await pageOfNever(scope, toSurveyFilter(query), query)), neverQuery)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
