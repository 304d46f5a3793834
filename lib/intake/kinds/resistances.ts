/** Fields of a reading that one instrument measures, in one unit. */
export const RESISTANCES: readonly string[] = ['side_a_uohm', 'side_b_uohm', 'conductor_uohm', 'conductor_b_uohm']
