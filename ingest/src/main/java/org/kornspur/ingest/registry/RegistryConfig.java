package org.kornspur.ingest.registry;

import java.net.URI;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How to reach a registry. The keys are those of the Confluent clients, so that one configuration
 * serves both.
 *
 * @param urls base addresses of one registry, tried in turn; each may carry a path
 * @param userInfo {@code user:password} for HTTP basic authentication
 * @param autoRegister whether a serializer may register a schema that the registry does not hold
 * @param timeout limit for one request
 * @param attempts how often a request is made before the registry counts as unreachable
 */
public record RegistryConfig(
    List<URI> urls,
    Optional<String> userInfo,
    boolean autoRegister,
    Duration timeout,
    int attempts) {

  /** Base address, or several with commas between them. */
  public static final String URL = "schema.registry.url";

  /** {@code user:password}; absent where the registry asks for none. */
  public static final String USER_INFO = "basic.auth.user.info";

  /** Whether a serializer may register; true by default. */
  public static final String AUTO_REGISTER = "auto.register.schemas";

  public RegistryConfig {
    urls = List.copyOf(urls);
    if (urls.isEmpty()) {
      throw new IllegalArgumentException(URL + " names no address");
    }
    if (attempts < 1) {
      throw new IllegalArgumentException("attempts is " + attempts + ", and must be 1 or more");
    }
  }

  /** One registry without authentication, with the usual limits: 5 s a request, three attempts. */
  public static RegistryConfig at(String urls) {
    return of(Map.of(URL, urls));
  }

  /**
   * Reads the configuration of a Kafka client.
   *
   * @throws IllegalArgumentException if {@value #URL} is missing or no address
   */
  public static RegistryConfig of(Map<String, ?> config) {
    return new RegistryConfig(
        addresses(config.get(URL)),
        Optional.ofNullable(config.get(USER_INFO)).map(Object::toString),
        Optional.ofNullable(config.get(AUTO_REGISTER))
            .map(value -> Boolean.parseBoolean(value.toString()))
            .orElse(true),
        Duration.ofSeconds(5),
        3);
  }

  private static List<URI> addresses(Object value) {
    if (value == null || value.toString().isBlank()) {
      throw new IllegalArgumentException(
          URL + " is not set. Give the registry's base address, as in http://localhost:8081");
    }
    return Arrays.stream(value.toString().split(",", -1)).map(RegistryConfig::address).toList();
  }

  private static URI address(String text) {
    String trimmed = text.strip();
    if (!trimmed.startsWith("http://") && !trimmed.startsWith("https://")) {
      throw new IllegalArgumentException(
          URL + " is '" + trimmed + "': expected an address that begins with http:// or https://");
    }
    return URI.create(trimmed.endsWith("/") ? trimmed.substring(0, trimmed.length() - 1) : trimmed);
  }
}
