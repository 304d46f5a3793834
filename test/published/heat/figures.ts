/** Check values keep the digits they were printed with, so they are text; this reads the numbers of one object. */
export const numbersOf = <T extends Record<string, string>>(printed: T): { [K in keyof T]: number } =>
  Object.fromEntries(Object.entries(printed).map(([key, text]) => [key, Number(text)])) as { [K in keyof T]: number }
