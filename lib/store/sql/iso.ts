import { name, type Sql } from './sql'

/** A timestamp column as the API writes it: ISO 8601 in UTC. */
export const iso = (column: string): Sql => name(`to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`)
