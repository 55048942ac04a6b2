package org.kornspur.api.security.connection;

import io.smallrye.config.ConfigSourceContext;
import io.smallrye.config.ConfigSourceFactory;
import io.smallrye.config.ConfigValue;
import io.smallrye.config.PropertiesConfigSource;
import java.util.List;
import java.util.Map;
import org.eclipse.microprofile.config.spi.ConfigSource;

/**
 * Where TLS is set up, a request by plain HTTP is led to it and not answered, unless the settings
 * say otherwise: Quarkus by itself would go on answering both, passwords in clear among them.
 */
public final class PlainHttpBesideTls implements ConfigSourceFactory {
  private static final List<String> SETTINGS_OF_TLS =
      List.of(
          "quarkus.http.ssl.certificate.files",
          "quarkus.http.ssl.certificate.files[0]",
          "quarkus.http.ssl.certificate.key-store-file",
          "quarkus.http.tls-configuration-name");

  private static final int BELOW_ALL_SETTINGS = 50;

  @Override
  public Iterable<ConfigSource> getConfigSources(ConfigSourceContext context) {
    boolean isTls = SETTINGS_OF_TLS.stream().anyMatch(name -> isSet(context.getValue(name)));
    return isTls
        ? List.of(
            new PropertiesConfigSource(
                Map.of("quarkus.http.insecure-requests", "redirect"),
                "plain HTTP beside TLS",
                BELOW_ALL_SETTINGS))
        : List.of();
  }

  private static boolean isSet(ConfigValue value) {
    return value != null && value.getValue() != null && !value.getValue().isBlank();
  }
}
