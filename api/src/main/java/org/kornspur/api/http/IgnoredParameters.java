package org.kornspur.api.http;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import org.kornspur.api.security.visibility.RequestEcho;
import org.kornspur.ingest.intake.Problem;

/**
 * What was ignored in the address of a page. A page shows its content all the same, without what
 * was asked for wrongly, and says so; the interface refuses such a request.
 */
@RequestScoped
public class IgnoredParameters {
  private final List<Problem> wrong = new ArrayList<>();
  @Inject RequestEcho asked;

  void add(List<Problem> more) {
    more.forEach(parameter -> asked.isWrong(parameter.field()));
    wrong.addAll(more);
  }

  /** Reads the parameters of a page. */
  public Parameters parameters() {
    return new Parameters(this::add);
  }

  /** All so far, in the order in which they were read. */
  public List<Problem> all() {
    return List.copyOf(wrong);
  }
}
