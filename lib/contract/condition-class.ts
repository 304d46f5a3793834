import { z } from 'zod'

export const conditionClass = z.enum(['sound', 'watch', 'degraded', 'urgent', 'critical', 'unknown'])
