package org.kornspur.api.kafka;

import org.kornspur.api.problem.BackupDetail;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.text.Language;

/** No backup can be made here or now; the detail says why and what to do. */
public final class BackupRefused extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient BackupDetail detail;

  BackupRefused(BackupDetail detail) {
    super(ProblemLanguage.words(Language.ENGLISH).plain(detail));
    this.detail = detail;
  }

  public BackupDetail detail() {
    return detail;
  }
}
