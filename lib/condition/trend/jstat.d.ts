declare module 'jstat' {
  const jstat: {
    normal: { cdf(x: number, mean: number, sd: number): number; inv(probability: number, mean: number, sd: number): number }
    studentt: { inv(probability: number, degreesOfFreedom: number): number }
    lstsq(design: number[][], values: number[][]): number[] | number[][]
  }
  export default jstat
}
