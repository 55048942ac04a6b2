package org.kornspur.api.text;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;

/** Where things are found. An id may hold a slash, which is written {@code %2F} in an address. */
public final class Addresses {

  /** What all addresses of the interface begin with. */
  public static final String ROOT = "/api/v1";

  private Addresses() {}

  /** Address of a subject. */
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

  /** The page of what has this address in the interface. */
  public static String page(String address) {
    return address.substring(ROOT.length());
  }

  /** The page of a crop or lot; empty for what has none. */
  public static String pageOf(Subject subject) {
    return subject.kind().isJudged() ? page(of(subject)) : "";
  }

  /** The page with the form of a type of fact. */
  public static String form(FactType type) {
    return "/record/" + type.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The form that corrects a fact. */
  public static String correcting(FactType type, String factId) {
    return form(type) + "?corrects=" + part(factId);
  }

  /** The form that takes a fact back. */
  public static String takingBack(String factId) {
    return form(FactType.WITHDRAWAL) + "?withdraws=" + part(factId);
  }

  /** The form that mends refused input. */
  public static String mending(FactType type, String entryId) {
    return form(type) + "?refused=" + part(entryId);
  }

  /** What can be recorded of a crop or lot. */
  public static String recording(Subject subject) {
    return "/record?" + subject.kind().word() + "=" + part(subject.id());
  }

  /** An id as one part of an address. */
  public static String part(String id) {
    return URLEncoder.encode(id, StandardCharsets.UTF_8).replace("+", "%20");
  }
}
