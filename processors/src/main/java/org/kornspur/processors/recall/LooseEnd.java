package org.kornspur.processors.recall;

import org.kornspur.ingest.contract.Subject;

/**
 * A place where a trace cannot be followed on.
 *
 * @param subject the crop or lot where it ends
 * @param kind what is missing
 * @param factId the fact that leads nowhere; empty where it is the absence of one
 */
public record LooseEnd(Subject subject, Kind kind, String factId) {

  /** What is missing. */
  public enum Kind {
    /** Nothing says where a lot came from: no declaration, harvest, conditioning or mixture. */
    NO_ORIGIN(true),
    /** A crop that was sown or harvested and never declared. */
    NOT_DECLARED(true),
    /** Nothing says what seed a crop was sown with. */
    NO_SOWING(true),
    /** A dispatch that names no label number, so that its bags cannot be told. */
    NO_LABELS(true),
    /** A crop of which no harvest is recorded: it stands, was given up, or the harvest is owed. */
    NO_HARVEST(false);

    private final boolean unresolved;

    Kind(boolean unresolved) {
      this.unresolved = unresolved;
    }

    /** Whether the trace is incomplete for it; else the seed has merely gone no farther yet. */
    public boolean isUnresolved() {
      return unresolved;
    }
  }
}
