import path from 'node:path'
import { fileURLToPath } from 'node:url'

/** The project's top directory, wherever a command was called from. */
export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..')
