package org.kornspur.api.query;

import org.kornspur.api.http.Parameters;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Trace;

/**
 * What a trace is asked for.
 *
 * @param most bound on the number of subjects
 */
public record TraceRequest(Subject start, Trace.Direction direction, int most) {
  private static final int MOST_SUBJECTS = 100_000;
  private static final int OTHERWISE = 5_000;

  /** Reads what was asked for; see {@link Trace}. */
  public static TraceRequest read(Subject start, String direction, String most) {
    Parameters parameters = new Parameters();
    TraceRequest request =
        new TraceRequest(
            start,
            parameters
                .one("direction", direction, Trace.Direction.class)
                .orElse(Trace.Direction.BACK),
            parameters.whole("most", most, OTHERWISE, 1, MOST_SUBJECTS));
    parameters.check();
    return request;
  }
}
