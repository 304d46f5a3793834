import fs from 'node:fs'
import path from 'node:path'
import { importFromStream } from '@/lib/cases/import-from-stream'
import type { ImportKind } from '@/lib/intake'
import { allScope } from '@/lib/store/all-scope'
import { closeDatabase } from '@/lib/store/database'

/** Imports one file in a process of its own and prints what it took: milliseconds, and the most memory it ever held. */
const [kind = 'readings', file = ''] = process.argv.slice(2)
const source = { fileName: path.basename(file), open: () => fs.createReadStream(file) }
const phases: Record<string, number> = {}
const startedMs = performance.now()
const result = await importFromStream(allScope(), source, {
  kind: kind as ImportKind, actor: 'bench', onProgress: (phase) => { phases[phase] ??= Math.round(performance.now() - startedMs) },
})
const ms = performance.now() - startedMs
await closeDatabase()
if (!result.ok) throw new Error(result.error.message)
const { rows, read, rejected, placed, review, new_splices: newSplices, urgent } = result.value.report
process.stdout.write(`${JSON.stringify({
  ms, maxRssMb: process.resourceUsage().maxRSS / 1024, phases, rows, read, rejected, placed, review, newSplices, urgent: urgent.length,
})}\n`)
