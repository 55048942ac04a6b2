/**
 * When a count may stop, read from a table of rows [units, accept with at most, reject from],
 * each holding from its units on until the next row.
 */

/** The row that holds after so many units; null before the first. */
export function rowAfter(rows, units) {
  let low = -1;
  let high = rows.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (rows[middle][0] <= units) {
      low = middle;
    } else {
      high = middle;
    }
  }
  return low < 0 ? null : rows[low];
}

/** GO_ON, ACCEPT or REJECT after so many bad units among those counted. */
export function decide(rows, units, bad) {
  const row = rowAfter(rows, units);
  if (row === null) {
    return 'GO_ON';
  }
  if (bad <= row[1]) {
    return 'ACCEPT';
  }
  return bad >= row[2] ? 'REJECT' : 'GO_ON';
}

/** Units at which the count ends well if no further bad unit comes up; null where it never does. */
export function endsWellAt(rows, units, bad) {
  const row = rows.find(([from, accept], at) =>
    accept >= bad && (at + 1 === rows.length || rows[at + 1][0] > units));
  return row ? Math.max(row[0], units) : null;
}
