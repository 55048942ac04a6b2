package org.kornspur.api.security.people;

import java.util.OptionalLong;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.Refused;

/** The people file is broken, so nobody can log in; the log says where. */
public final class PeopleUnreadable extends Refused {
  private static final long serialVersionUID = 1L;
  private static final int RETRY_AFTER_SECONDS = 30;

  public PeopleUnreadable() {
    super(
        new Refusal(
            ProblemDocument.of(ProblemKind.NOT_READY, new AccessDetail.PeopleUnreadable()),
            OptionalLong.of(RETRY_AFTER_SECONDS)));
  }
}
