/** Moves are short; the renderer leaves them out where the system asks for less motion. */
export const MOVE_MS = 180
