/** The x of `square` · x = `right`, by elimination; the square matrix is symmetric and positive. */
export function solved(square: number[][], right: number[]): number[] {
  const rows = square.map((row, at) => [...row, right[at] ?? 0]);
  const size = right.length;
  for (const [at, row] of rows.entries())
    for (const [below, other] of rows.entries()) {
      if (below === at) continue;
      const times = (other[at] ?? 0) / (row[at] ?? 1);
      for (let column = at; column <= size; column += 1)
        other[column] = (other[column] ?? 0) - times * (row[column] ?? 0);
    }
  return rows.map((row, at) => (row[size] ?? 0) / (row[at] ?? 1));
}
