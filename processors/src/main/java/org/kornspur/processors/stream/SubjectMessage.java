package org.kornspur.processors.stream;

/** What goes to a subject's dossier: a fact, or the mark that one of its facts was superseded. */
sealed interface SubjectMessage extends IntakeRecord {

  /** Id of the fact that it is about. */
  String factId();

  /** A fact, in wire format. */
  record FactFor(String factId, byte[] wire) implements SubjectMessage {
    public FactFor {
      Keys.part(factId);
    }
  }

  /** That another fact took the place of this one, or took it back. */
  record RevocationOf(String factId, String byFactId, String reason) implements SubjectMessage {
    public RevocationOf {
      Keys.part(factId);
      Keys.part(byFactId);
    }
  }
}
