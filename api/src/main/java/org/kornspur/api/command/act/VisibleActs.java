package org.kornspur.api.command.act;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.ingest.contract.Subject;

/**
 * Acts with the printed names of those who signed, as far as the caller may read them. Pages and
 * papers get them here alone, so that neither shows a name that the other withholds.
 */
@ApplicationScoped
public class VisibleActs {
  @Inject ActSigning acts;
  @Inject CurrentCaller caller;

  /**
   * The acts on a subject and the refused ones, in the order of their time; none for who may not
   * read acts.
   *
   * @throws org.kornspur.api.problem.ApiProblem if no fact names the subject, or the caller does
   *     not see it
   */
  public List<ActView> of(Subject subject) {
    return caller.get().may(Permission.READ_ACTS) ? acts.history(subject) : List.of();
  }
}
