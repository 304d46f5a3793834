/** From here lines lie where their conductors hang; below, circuits on the same structures are drawn apart by lanes. */
export const TRUE_FROM_ZOOM = 16
