import { notFound } from 'next/navigation'

/** The server-issued id of an address; anything else is an address that keeps nothing. */
export function serverId(text: string): number {
  const id = /^[1-9]\d{0,9}$/.test(text) ? Number(text) : NaN
  if (!(id <= 2_147_483_647)) notFound()
  return id
}
