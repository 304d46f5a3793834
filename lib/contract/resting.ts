import { z } from 'zod'

/** What rests on an import of lines, structures, splices or the like, and so goes with it or keeps it from being undone. */
export const restingOnImport = z.object({
  /** Readings that lie on what it brought, of any import. */
  readings: z.int(),
  /** What must be undone first: of which import (null: made by people), and how many. */
  blockers: z.array(z.object({ what: z.string(), count: z.int(), import_id: z.int().nullable(), file_name: z.string().nullable() })),
})

export type RestingOnImport = z.infer<typeof restingOnImport>
