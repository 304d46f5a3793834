import { others } from '@/app/api/http/others'
import { spliceFile } from '@/app/api/http/splice-file'

export const dynamic = 'force-dynamic'

export const GET = spliceFile('csv')

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
