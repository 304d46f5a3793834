import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { csv } from '@/app/api/http/respond'
import { circuitsCsv } from '@/lib/cases/circuits-csv'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => csv('circuit-health.csv', await circuitsCsv(scope)))

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
