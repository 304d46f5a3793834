import { z } from 'zod'

/** RFC 9457. */
export const problem = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  detail: z.string().optional(),
  code: z.string().optional(),
  remedy: z.string().optional(),
  errors: z.array(z.object({ path: z.string(), message: z.string(), remedy: z.string().optional() })).optional(),
})

export type Problem = z.infer<typeof problem>
