import { rejectedCsv, rejectedName, type RowIssue } from '@/lib/intake'
import { rejectedRows } from '@/lib/store/import-issues'
import { importToRun } from '@/lib/store/imports'
import type { Scope } from '@/lib/store/scope'
import { database } from '@/lib/store/transaction'

/** The rejected rows of an import as a CSV to correct and import again, line by line, and what to call it. Undefined where there is no such import. */
export async function rejectedRowsCsv(scope: Scope, importId: number): Promise<{ fileName: string; lines: AsyncGenerator<string> } | undefined> {
  const found = await importToRun(scope, importId, database())
  return found && {
    fileName: rejectedName(found.file_name),
    lines: rejectedCsv(found.header ?? [], issuesOf(scope, importId), { importId, delimiter: found.delimiter ?? undefined }),
  }
}

async function* issuesOf(scope: Scope, importId: number): AsyncGenerator<RowIssue> {
  for await (const { field, value, line, raw, ...issue } of rejectedRows(scope, importId)) {
    yield { ...issue, line: line ?? undefined, field: field ?? undefined, value: value ?? undefined, raw: raw ?? undefined }
  }
}
