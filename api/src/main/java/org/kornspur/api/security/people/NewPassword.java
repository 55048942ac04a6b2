package org.kornspur.api.security.people;

import java.security.SecureRandom;

/** Makes passwords: 24 letters and digits that are not mistaken for each other, 120 bits. */
final class NewPassword {
  private static final String CHARACTERS = "abcdefghijkmnpqrstuvwxyz23456789";
  private static final int GROUPS = 4;
  private static final int GROUP_LENGTH = 6;
  private static final SecureRandom RANDOM = new SecureRandom();

  private NewPassword() {}

  static String make() {
    StringBuilder made = new StringBuilder();
    for (int group = 0; group < GROUPS; group++) {
      if (group > 0) {
        made.append('-');
      }
      RANDOM
          .ints(GROUP_LENGTH, 0, CHARACTERS.length())
          .forEach(at -> made.append(CHARACTERS.charAt(at)));
    }
    return made.toString();
  }
}
