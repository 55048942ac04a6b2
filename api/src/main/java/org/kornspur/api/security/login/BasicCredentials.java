package org.kornspur.api.security.login;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Optional;

/** What an Authorization header of the Basic scheme holds (RFC 7617). */
record BasicCredentials(String personId, String password) {

  static Optional<BasicCredentials> read(String base64) {
    try {
      String both = new String(Base64.getDecoder().decode(base64.strip()), StandardCharsets.UTF_8);
      int colon = both.indexOf(':');
      return colon < 1
          ? Optional.empty()
          : Optional.of(new BasicCredentials(both.substring(0, colon), both.substring(colon + 1)));
    } catch (IllegalArgumentException malformed) {
      return Optional.empty();
    }
  }

  @Override
  public String toString() {
    return "a person and a password";
  }
}
