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

/**
 * What a visit is told: the decision over all that was counted, and whether to stop. Before the
 * visit's own least sample it is never told to stop, and never that all is well.
 *
 * @param least units below which the visit by itself is no sample
 * @param today units counted on this visit
 */
export function told(rows, least, units, bad, today) {
  const decision = decide(rows, units, bad);
  const isSample = today >= least;
  return {
    decision: decision === 'ACCEPT' && !isSample ? 'GO_ON' : decision,
    mayStop: isSample && decision !== 'GO_ON',
  };
}

/** Units at which the count ends well if no further bad unit comes up; null where it never does. */
export function endsWellAt(rows, units, bad) {
  const row = rows.find(([from, accept], at) =>
    accept >= bad && (at + 1 === rows.length || rows[at + 1][0] > units));
  return row ? Math.max(row[0], units) : null;
}
