import { z } from 'zod'

/** Most items of a page that may be asked for, of every list. */
export const MOST_OF_A_PAGE = 500

/** How every list is paged: `cursor` is where the page before ended, opaque; `limit` the most items of this one. */
export const pageQuery = z.object({
  cursor: z.string().max(500).optional(),
  limit: z.coerce.number<string>().int().min(1).max(MOST_OF_A_PAGE).optional(),
})
