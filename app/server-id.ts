import { notFound } from 'next/navigation'
import { parseId } from '@/app/api/http/parse'

/** The server-issued id of an address; anything else is an address that keeps nothing. */
export const serverId = (text: string): number => parseId(text) ?? notFound()
