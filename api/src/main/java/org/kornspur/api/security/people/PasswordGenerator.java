package org.kornspur.api.security.people;

import java.security.SecureRandom;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Passwords that this program makes. */
final class PasswordGenerator {
  private static final String CHARACTERS = "abcdefghijkmnpqrstuvwxyz23456789";
  private static final SecureRandom RANDOM = new SecureRandom();

  private PasswordGenerator() {}

  /** Four groups of letters and digits that are not mistaken for each other, 120 bits. */
  static String made() {
    return Stream.generate(
            () ->
                RANDOM
                    .ints(6, 0, CHARACTERS.length())
                    .mapToObj(at -> CHARACTERS.substring(at, at + 1))
                    .collect(Collectors.joining()))
        .limit(4)
        .collect(Collectors.joining("-"));
  }
}
