/** The distributions that the measuring room takes from jstat, which brings no types of its own. */
declare module 'jstat' {
  const jStat: {
    readonly normal: {
      cdf(x: number, mean: number, sd: number): number;
      inv(p: number, mean: number, sd: number): number;
    };
    readonly chisquare: { inv(p: number, dof: number): number };
    readonly studentt: { inv(p: number, dof: number): number; cdf(x: number, dof: number): number };
  };
  export default { jStat };
}
