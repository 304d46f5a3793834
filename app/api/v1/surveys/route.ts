import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { listSurveys } from '@/lib/store/surveys'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => json({ items: await listSurveys(scope) }))

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
