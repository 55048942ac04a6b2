package org.kornspur.api.kafka.embedded;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.Map;
import java.util.Properties;
import java.util.stream.Stream;
import org.apache.kafka.common.security.auth.SecurityProtocol;
import org.apache.kafka.common.security.scram.ScramLoginModule;
import org.kornspur.api.storage.SecretFile;
import org.kornspur.api.storage.SymmetricKey;
import org.kornspur.ingest.registry.RegistryConfig;

/**
 * Who may use the embedded broker and registry. All passwords follow from one secret of the data
 * folder; none tells another. With SCRAM a client sends no password, and notices a program that
 * only listens on the broker's port.
 *
 * @param program this program, which may do everything
 * @param client who loads files or verifies; see {@code TopicRights}
 */
public record BrokerLogins(Login program, Login client) {

  /** Name of the file with the settings of {@link #client}, in the data folder. */
  public static final String CLIENT_FILE = "client.properties";

  static final String MECHANISM = "SCRAM-SHA-512";
  static final String PROTOCOL = SecurityProtocol.SASL_PLAINTEXT.name;

  private static final String SECRET_FILE = "broker.key";

  /**
   * A user of the broker and the registry.
   *
   * @param registryPassword another than the broker's, as HTTP sends it in clear
   */
  public record Login(String user, String password, String registryPassword) {

    private static Login of(SymmetricKey secret, String user) {
      return new Login(
          user, derived(secret, "broker:" + user), derived(secret, "registry:" + user));
    }

    /** Settings with which a Kafka client logs in to the broker. */
    public Map<String, Object> brokerSettings() {
      return Map.of(
          "security.protocol", PROTOCOL, "sasl.mechanism", MECHANISM, "sasl.jaas.config", jaas());
    }

    /** Settings with which a serializer logs in to the registry. */
    public Map<String, Object> registrySettings() {
      return Map.of(
          "basic.auth.credentials.source",
          "USER_INFO",
          RegistryConfig.USER_INFO,
          user + ":" + registryPassword);
    }

    /** Without the passwords: this may come into a log. */
    @Override
    public String toString() {
      return user;
    }

    private String jaas(Login... taken) {
      StringBuilder jaas = new StringBuilder(ScramLoginModule.class.getName() + " required");
      jaas.append(" username=\"%s\" password=\"%s\"".formatted(user, password));
      for (Login login : taken) {
        jaas.append(" %s%s=\"%s\"".formatted(ScramUsers.OPTION, login.user(), login.password()));
      }
      return jaas.append(";").toString();
    }
  }

  /**
   * The logins of a data folder; their secret is made at the first call.
   *
   * @throws UncheckedIOException if it cannot be read or made
   */
  public static BrokerLogins in(Path dataFolder) {
    SymmetricKey secret = SymmetricKey.in(dataFolder.resolve(SECRET_FILE));
    return new BrokerLogins(Login.of(secret, "kornspur"), Login.of(secret, "client"));
  }

  /**
   * Writes the settings of a client into {@value #CLIENT_FILE} of the data folder, as Java
   * properties, which the loader, {@code verify} and Kafka's own commands read.
   *
   * @throws UncheckedIOException if it cannot be written
   */
  public static void writeClientFile(Path dataFolder, Map<String, Object> settings) {
    Properties properties = new Properties();
    properties.putAll(settings);
    StringWriter text = new StringWriter();
    try {
      properties.store(text, "Written at each start. Whoever has this may bring facts.");
      SecretFile.replace(
          dataFolder.resolve(CLIENT_FILE), text.toString().getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(dataFolder.resolve(CLIENT_FILE) + " cannot be written", e);
    }
  }

  /** Both may use the broker, and this program alone the controller. */
  Map<String, String> listenerSettings() {
    return Map.of(
        "sasl.enabled.mechanisms",
        MECHANISM,
        "sasl.mechanism.inter.broker.protocol",
        MECHANISM,
        "sasl.mechanism.controller.protocol",
        MECHANISM,
        jaasSetting("broker"),
        program.jaas(program, client),
        jaasSetting("controller"),
        program.jaas(program),
        usersSetting("broker"),
        ScramUsers.class.getName(),
        usersSetting("controller"),
        ScramUsers.class.getName());
  }

  boolean registryTakes(String user, String password) {
    return Stream.of(program, client)
        .anyMatch(
            login ->
                login.user().equals(user)
                    && MessageDigest.isEqual(
                        login.registryPassword().getBytes(StandardCharsets.UTF_8),
                        password.getBytes(StandardCharsets.UTF_8)));
  }

  private static String jaasSetting(String listener) {
    return "listener.name." + listener + ".scram-sha-512.sasl.jaas.config";
  }

  private static String usersSetting(String listener) {
    return "listener.name." + listener + ".scram-sha-512.sasl.server.callback.handler.class";
  }

  private static String derived(SymmetricKey secret, String purpose) {
    return HexFormat.of().formatHex(secret.mac(purpose.getBytes(StandardCharsets.UTF_8)));
  }
}
