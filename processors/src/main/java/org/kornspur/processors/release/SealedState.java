package org.kornspur.processors.release;

import java.util.Arrays;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.verdict.Verdict;

/** How a verdict stands, or stood when a release was sealed. Its name is what is stored. */
public enum SealedState {
  /** There was no such verdict. */
  NONE,
  MET,
  NOT_MET,
  OWED;

  static SealedState of(Verdict verdict) {
    if (verdict instanceof Verdict.Met) {
      return MET;
    }
    return verdict instanceof Verdict.NotMet ? NOT_MET : OWED;
  }

  static SealedState of(InheritedFinding trouble) {
    return switch (trouble.weight()) {
      case CONDEMNS -> NOT_MET;
      case OWED -> OWED;
    };
  }

  /** The state of this name; that of a later release, which nobody here knows, is none. */
  static SealedState named(String name) {
    return Arrays.stream(values())
        .filter(state -> state.name().equals(name))
        .findFirst()
        .orElse(NONE);
  }
}
