package org.kornspur.processors.stream;

/** What the intake sends on: a message to a dossier, a revocation, or what it refused. */
sealed interface IntakeRecord permits SubjectMessage, Revocation, IntakeRecord.Refused {

  /** A refused record: its entry of the quarantine, in wire format. */
  record Refused(byte[] entry) implements IntakeRecord {}
}
