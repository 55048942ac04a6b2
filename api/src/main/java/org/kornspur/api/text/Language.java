package org.kornspur.api.text;

import jakarta.ws.rs.core.Cookie;
import jakarta.ws.rs.core.HttpHeaders;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.kornspur.ingest.file.DecimalMark;

/** A language that the pages speak. */
public enum Language {
  ENGLISH(Locale.UK, "English", DecimalMark.POINT),
  GERMAN(Locale.GERMANY, "Deutsch", DecimalMark.COMMA);

  /** Cookie that holds the language somebody chose. */
  public static final String COOKIE = "kornspur-language";

  private static volatile Language ofSite = ENGLISH;

  private final Locale locale;
  private final String ownName;
  private final DecimalMark decimalMark;

  Language(Locale locale, String ownName, DecimalMark decimalMark) {
    this.locale = locale;
    this.ownName = ownName;
    this.decimalMark = decimalMark;
  }

  /** Locale by which dates and numbers are written. */
  public Locale locale() {
    return locale;
  }

  /** Name in the language itself. */
  public String ownName() {
    return ownName;
  }

  /** What stands before the decimals of a number. */
  public DecimalMark decimalMark() {
    return decimalMark;
  }

  /** Language tag (BCP 47) without a region, as in the {@code lang} attribute of HTML. */
  public String tag() {
    return locale.getLanguage();
  }

  /** The language with this tag. */
  public static Optional<Language> of(String tag) {
    return Arrays.stream(values()).filter(language -> language.tag().equals(tag)).findFirst();
  }

  /**
   * The language of a request: the one chosen before, else the first of {@code Accept-Language}
   * (RFC 9110, section 12.5.4) that is spoken here, else that of the site.
   */
  public static Language of(HttpHeaders headers) {
    Cookie chosen = headers.getCookies().get(COOKIE);
    return Optional.ofNullable(chosen)
        .map(Cookie::getValue)
        .flatMap(Language::of)
        .or(() -> accepted(headers))
        .orElse(ofSite);
  }

  /** The language of the site, for who asks for none that is spoken here. */
  public static Language ofSite() {
    return ofSite;
  }

  /** Sets the language of the site, before anybody can ask. */
  public static void setOfSite(Language language) {
    ofSite = language;
  }

  private static Optional<Language> accepted(HttpHeaders headers) {
    return headers.getAcceptableLanguages().stream()
        .flatMap(locale -> of(locale.getLanguage()).stream())
        .findFirst();
  }
}
