package org.kornspur.api.security.people;

import java.util.OptionalLong;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.Refusal;

/** The people file is broken, so nobody can log in; the log says where. */
public final class PeopleUnreadable extends Refusal {
  private static final long serialVersionUID = 1L;
  private static final int RETRY_AFTER_SECONDS = 30;

  public PeopleUnreadable() {
    super(
        ProblemKind.NOT_READY,
        new AccessDetail.PeopleUnreadable(),
        OptionalLong.of(RETRY_AFTER_SECONDS));
  }
}
