package org.kornspur.api.security.login;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.security.Permission;

/** Addresses that need no log-in, or a permission though no resource class answers at them. */
public final class RoutePolicy {

  /** The page where people log in. */
  public static final String LOG_IN = "/login";

  /** Where a log-in is sent. */
  public static final String SESSION = "/api/v1/session";

  /** Where a person sets a password of their own. */
  static final String OWN_PASSWORD = "/api/v1/account/password";

  /** Where the language of the pages is chosen, that of the log-in too. */
  static final String LANGUAGE = "/language/";

  /** The manual. */
  static final String HELP = "/help";

  /** What the interface is; it says nothing of the site's data. */
  private static final String OPENAPI = "/openapi";

  private static final String ASYNCAPI = "/asyncapi";

  /** What the log-in page is drawn with: styles and pictures, no data. */
  static final String ASSETS = "/assets/";

  private static final Set<String> HEALTH =
      Set.of("/health", "/health/live", "/health/ready", "/health/started");
  private static final String INTERNAL = "/internal";

  /** Addresses that answer without a resource class, and what they need. */
  private static final Map<String, Permission> OUTSIDE_RESOURCES =
      Map.of(
          "/metrics",
          Permission.READ_METRICS,
          "/q",
          Permission.READ_OPERATIONS,
          "/health",
          Permission.READ_OPERATIONS,
          OPENAPI,
          Permission.READ_HELP);

  private RoutePolicy() {}

  static boolean isHealth(String path) {
    return HEALTH.contains(path);
  }

  static boolean isInternal(String path) {
    return isUnder(path, INTERNAL);
  }

  /** Whether an address may be reached without a log-in. */
  public static boolean isOpen(String path) {
    return List.of(LOG_IN, SESSION, HELP).contains(path)
        || isUnder(path, OPENAPI)
        || isUnder(path, ASYNCAPI)
        || path.startsWith(HELP + "/")
        || path.startsWith(ASSETS)
        || path.startsWith(LANGUAGE);
  }

  static Optional<Permission> neededOutsideResources(String path) {
    return OUTSIDE_RESOURCES.entrySet().stream()
        .filter(place -> isUnder(path, place.getKey()))
        .map(Map.Entry::getValue)
        .findFirst();
  }

  private static boolean isUnder(String path, String root) {
    return path.equals(root)
        || path.startsWith(root + "/")
        || path.startsWith(root + ".")
        || path.startsWith(root + ";");
  }

  /**
   * Where to go after the log-in: a path of this site, whatever is asked for. A second slash or a
   * backslash at the start would lead a browser to another host.
   */
  public static String afterLogIn(String next) {
    boolean isPath =
        next != null
            && next.matches("/[A-Za-z0-9/._~%?&=+:,-]*")
            && !next.startsWith("//")
            && next.length() <= 1_000;
    return isPath ? next : "/";
  }

  /** The log-in page with the reason why it is shown. */
  public static String logInAgain(String next, String why) {
    return LOG_IN
        + "?why="
        + why
        + "&next="
        + URLEncoder.encode(afterLogIn(next), StandardCharsets.UTF_8);
  }
}
