import { z } from 'zod'

const id = z.int().positive()

/** Where a placed reading may have been taken instead, the likeliest first; a share each. */
export const otherPlaces = z.object({
  reading_id: id,
  places: z.array(z.object({ circuit_id: id, circuit: z.string(), position_text: z.string(), probability: z.number() })),
})
