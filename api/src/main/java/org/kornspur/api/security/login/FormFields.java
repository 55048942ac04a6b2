package org.kornspur.api.security.login;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** The fields of a form as browsers send it ({@code application/x-www-form-urlencoded}). */
public record FormFields(String body) {

  public static FormFields of(byte[] body) {
    return new FormFields(new String(body, StandardCharsets.UTF_8));
  }

  /** The first field of this name; empty text where it is malformed. */
  public Optional<String> first(String name) {
    return values(name).findFirst();
  }

  /** All fields of this name, in the order of the form. */
  public List<String> all(String name) {
    return values(name).toList();
  }

  private Stream<String> values(String name) {
    return Arrays.stream(body.split("&", -1))
        .filter(field -> field.startsWith(name + "="))
        .map(field -> decoded(field.substring(name.length() + 1)));
  }

  private static String decoded(String text) {
    try {
      return URLDecoder.decode(text, StandardCharsets.UTF_8);
    } catch (IllegalArgumentException malformed) {
      return "";
    }
  }

  /** Forms carry passwords. */
  @Override
  public String toString() {
    return "a form";
  }
}
