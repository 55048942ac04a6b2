package org.kornspur.api.export.identity;

import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kornspur.ingest.contract.Subject;

/**
 * How things are named outside: by the address of their page here, or, for a lot whose hybrid has a
 * GTIN, by that and the lot number as a GS1 Digital Link URI.
 *
 * <p>Source: EPCIS 2.0, section 6.4, allows any URI for an object or a class of objects where there
 * is no GS1 key; GS1 Digital Link Standard: URI Syntax 1.2, section 4.
 */
public final class Identifiers {

  /**
   * Longest lot number that application identifier 10 holds (GS1 General Specifications, 3.4.1).
   */
  static final int LONGEST_GS1_LOT = 20;

  private static final String GS1_RESOLVER = "https://id.gs1.org";
  private static final Pattern DIGITAL_LINK =
      Pattern.compile("https?://[^/]+/(?:[^/]+/)*01/(\\d{8,14})/10/([^/?#;]+)");
  private static final Pattern LGTIN =
      Pattern.compile("urn:epc:class:lgtin:(\\d{6,12})\\.(\\d)(\\d{0,6})\\.(.+)");

  private static final Map<Subject.Kind, String> FOLDERS =
      new EnumMap<>(
          Map.of(
              Subject.Kind.LOT, "/lots/",
              Subject.Kind.CROP, "/crops/",
              Subject.Kind.SOURCE, "/pollen-sources/",
              Subject.Kind.HYBRID, "/hybrids/",
              Subject.Kind.ENTERPRISE, "/enterprises/"));

  private final String base;
  private final Function<String, Optional<Gtin>> gtinOfLot;

  /**
   * @param base where the pages are, without a slash at the end, as {@code https://seed.example}
   * @param gtinOfLot GTIN of the hybrid that a lot is seed of, where it has one
   */
  public Identifiers(String base, Function<String, Optional<Gtin>> gtinOfLot) {
    this.base = base.endsWith("/") ? base.substring(0, base.length() - 1) : base;
    this.gtinOfLot = gtinOfLot;
  }

  /** Names without GS1 keys. */
  public Identifiers(String base) {
    this(base, lotId -> Optional.empty());
  }

  /** The name of a subject. */
  public String of(Subject subject) {
    return subject.kind() == Subject.Kind.LOT
        ? lot(subject.id())
        : page(FOLDERS.get(subject.kind()), subject.id());
  }

  /** The name of a lot: with its GTIN where it has one, else its page. */
  public String lot(String lotId) {
    return keyedAt(GS1_RESOLVER, lotId);
  }

  /** The address of a lot's page. */
  public String lotPage(String lotId) {
    return page("/lots/", lotId);
  }

  /**
   * What a label's code holds: an address on this site that opens the lot's page, with the GTIN in
   * it where the lot has one.
   */
  public String lotLink(String lotId) {
    return keyedAt(base, lotId);
  }

  private String keyedAt(String resolver, String lotId) {
    return lotId.length() > LONGEST_GS1_LOT
        ? lotPage(lotId)
        : gtinOfLot
            .apply(lotId)
            .map(gtin -> resolver + "/01/" + gtin.digits() + "/10/" + encoded(lotId))
            .orElseGet(() -> lotPage(lotId));
  }

  /** The name of a field, which many crops may stand on over the years. */
  public String field(String fieldId) {
    return page("/fields/", fieldId);
  }

  /** The name of a sample. */
  public String sample(String sampleId) {
    return page("/samples/", sampleId);
  }

  /** The name of a person or device: an id, never a plain name. */
  public String person(String personId) {
    return page("/people/", personId);
  }

  /** The name of a paper or file behind a fact. */
  public String document(String sourceDocument) {
    return page("/documents/", sourceDocument);
  }

  /** Where this site is. */
  public String base() {
    return base;
  }

  /**
   * The subject that a name from outside stands for: one of ours by its page; a lot by its Digital
   * Link or LGTIN, under the lot number alone where the GTIN is the one that we give this lot, else
   * under both. Empty for any other name.
   */
  public Optional<Subject> subject(String uri) {
    for (Map.Entry<Subject.Kind, String> folder : FOLDERS.entrySet()) {
      String start = base + folder.getValue();
      if (uri.startsWith(start) && uri.length() > start.length()) {
        return Optional.of(new Subject(folder.getKey(), decoded(uri.substring(start.length()))));
      }
    }
    return lotOutside(uri).map(Subject::lot);
  }

  private Optional<String> lotOutside(String uri) {
    Matcher link = DIGITAL_LINK.matcher(uri);
    if (link.matches()) {
      return lotOfKey(link.group(1), decoded(link.group(2)));
    }
    Matcher lgtin = LGTIN.matcher(uri);
    if (lgtin.matches()) {
      String body = lgtin.group(2) + lgtin.group(1) + lgtin.group(3);
      return lotOfKey(body + Gtin.checkDigit(body), decoded(lgtin.group(4)));
    }
    return Optional.empty();
  }

  private Optional<String> lotOfKey(String digits, String lotNumber) {
    try {
      Gtin gtin = new Gtin(digits);
      boolean ours = gtinOfLot.apply(lotNumber).filter(gtin::equals).isPresent();
      return Optional.of(ours ? lotNumber : gtin.digits() + "/" + lotNumber);
    } catch (IllegalArgumentException noGtin) {
      return Optional.empty();
    }
  }

  private String page(String folder, String id) {
    return base + folder + encoded(id);
  }

  private static String encoded(String id) {
    return URLEncoder.encode(id, StandardCharsets.UTF_8).replace("+", "%20");
  }

  /** A text with a broken escape is taken as it is; the check of ids then refuses it. */
  private static String decoded(String part) {
    try {
      return URLDecoder.decode(part.replace("+", "%2B"), StandardCharsets.UTF_8);
    } catch (IllegalArgumentException brokenEscape) {
      return part;
    }
  }
}
