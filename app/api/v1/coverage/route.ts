import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { surveyFilterQuery, toSurveyFilter } from '@/lib/contract/survey-layer'
import { coverageFigures } from '@/lib/tiles/survey/coverage-answers'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope, query }) => json(await coverageFigures(scope, toSurveyFilter(query))), surveyFilterQuery)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
