/** What the outside checks use of jstat, which ships no types. */
declare module 'jstat' {
  const jstat: {
    mean(values: number[]): number;
    normal: {
      inv(probability: number, mean: number, deviation: number): number;
      cdf(value: number, mean: number, deviation: number): number;
    };
    chisquare: { inv(probability: number, freedom: number): number };
    /** Least squares; a column of ones gives the intercept. */
    models: { ols(values: number[], rows: number[][]): { coef: number[] } };
  };
  export default jstat;
}
