package org.kornspur.api.security.login;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;

/** Where people log in, and where they go from there. */
public final class LogInAddress {
  private static final String AFTER_LOG_IN = "/";

  private LogInAddress() {}

  /**
   * Where to go after the log-in: a path of this site, whatever is asked for. A second slash or a
   * backslash at the start would lead a browser to another host.
   */
  public static String local(String next) {
    boolean isPath =
        next != null
            && next.matches("/[A-Za-z0-9/._~%?&=+:,-]*")
            && !next.startsWith("//")
            && next.length() <= 1_000;
    return isPath ? next : AFTER_LOG_IN;
  }

  public static String address(String next, String why) {
    return RoutePolicy.LOG_IN
        + "?why="
        + why
        + "&next="
        + URLEncoder.encode(local(next), StandardCharsets.UTF_8);
  }
}
