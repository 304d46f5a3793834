import { others } from '@/app/api/http/others'
import { tileHandler } from '@/app/tiles/tile'
import { surveyFilterToQuery, surveyTileQuery, toSurveyFilter } from '@/lib/contract/survey-layer'
import { surveyTile } from '@/lib/tiles/tiles'

export const dynamic = 'force-dynamic'

export const GET = tileHandler('survey', { query: surveyTileQuery, filterOf: toSurveyFilter, asked: surveyFilterToQuery, cut: surveyTile })

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
