import { Prisma } from '../generated/client'

/** Text with its values apart, so that nothing a person typed ever becomes SQL. */
export type Sql = Prisma.Sql

export const sql = Prisma.sql
export const join = Prisma.join
export const empty = Prisma.empty

/** For table and column names written in our own code, never for input. */
export const name = Prisma.raw
