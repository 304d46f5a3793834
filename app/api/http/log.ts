import pino from 'pino'

/** One JSON line per event on stdout. */
export const log = pino({ name: 'spanledger', level: process.env.LOG_LEVEL ?? 'info' })
