package org.kornspur.api.web;

import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** Where the pages of subjects are found: as in the interface, without its beginning. */
public final class PageAddresses {

  private PageAddresses() {}

  /** Page of a crop or lot; empty for what has none. */
  public static String of(Subject subject) {
    return switch (subject.kind()) {
      case LOT, CROP -> Addresses.of(subject).substring(Addresses.ROOT.length());
      case SOURCE, HYBRID, ENTERPRISE -> "";
    };
  }

  /** Page of a subject written as kind:id. */
  public static String of(String subject) {
    return of(Subject.parse(subject));
  }
}
