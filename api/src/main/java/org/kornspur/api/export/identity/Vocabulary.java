package org.kornspur.api.export.identity;

/** The names of our own that the published vocabularies lack. */
public final class Vocabulary {

  /**
   * What they begin with. A name, never an address to fetch: the top-level domain {@code example}
   * is reserved (RFC 2606), so that nobody else can own it.
   */
  public static final String NAMESPACE = "https://kornspur.example/ns/";

  /** The prefix that stands for the name space in JSON-LD. */
  public static final String PREFIX = "kornspur";

  private Vocabulary() {}

  /** The full name of a term. */
  public static String term(String word) {
    return NAMESPACE + word;
  }

  /** The short name of a term, under the prefix. */
  public static String shortTerm(String word) {
    return PREFIX + ":" + word;
  }
}
