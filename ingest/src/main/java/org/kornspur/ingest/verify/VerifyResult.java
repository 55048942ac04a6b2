package org.kornspur.ingest.verify;

import java.util.Collection;

/** What a verification came to. */
public enum VerifyResult {
  /** All that is signed is as it was signed. */
  INTACT(0),
  /** There are facts, and no signature covers any of them yet. */
  NOTHING_SIGNED(2),
  /** Something was tampered with. */
  TAMPERED(3);

  private final int exitCode;

  VerifyResult(int exitCode) {
    this.exitCode = exitCode;
  }

  /** Exit code of the command line. */
  int exitCode() {
    return exitCode;
  }

  /**
   * The result.
   *
   * @param findings what is not as it was signed
   * @param signed how many of the records a checkpoint covers
   */
  public static VerifyResult of(Collection<?> findings, long signed, long records) {
    if (!findings.isEmpty()) {
      return TAMPERED;
    }
    return records > 0 && signed == 0 ? NOTHING_SIGNED : INTACT;
  }
}
