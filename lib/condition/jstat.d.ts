declare module 'jstat' {
  const jstat: {
    normal: { cdf(x: number, mean: number, sd: number): number; inv(probability: number, mean: number, sd: number): number }
    studentt: { inv(probability: number, degreesOfFreedom: number): number }
    /** Successes among `draws` from `population` of which `successes` are such. */
    hypgeom: { pdf(count: number, population: number, successes: number, draws: number): number }
    lstsq(design: number[][], values: number[][]): number[] | number[][]
  }
  export default jstat
}
