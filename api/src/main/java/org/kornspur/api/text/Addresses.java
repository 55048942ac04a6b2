package org.kornspur.api.text;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import org.kornspur.ingest.contract.Subject;

/** Where things are found. An id may hold a slash, which is written {@code %2F} in an address. */
public final class Addresses {

  /** What all addresses of the interface begin with. */
  public static final String ROOT = "/api/v1";

  private Addresses() {}

  /**
   * Address of a subject; of its first visibility's facts for a pollen source, which has no page.
   */
  public static String of(Subject subject) {
    return switch (subject.kind()) {
      case LOT -> ROOT + "/lots/" + part(subject.id());
      case CROP -> ROOT + "/crops/" + part(subject.id());
      case SOURCE -> ROOT + "/pollen-sources/" + part(subject.id());
      case HYBRID -> ROOT + "/hybrids/" + part(subject.id());
      case ENTERPRISE -> ROOT + "/enterprises/" + part(subject.id());
    };
  }

  /** Address of a quarantine entry. */
  public static String ofEntry(String entryId) {
    return ROOT + "/quarantine/" + part(entryId);
  }

  /** Address of a rulebook. */
  public static String ofRulebook(String rulebookId) {
    return ROOT + "/rulebooks/" + part(rulebookId);
  }

  private static String part(String id) {
    return URLEncoder.encode(id, StandardCharsets.UTF_8).replace("+", "%20");
  }
}
