package org.kornspur.api.kafka.embedded;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.io.IOException;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.Security;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.common.errors.SaslAuthenticationException;
import org.apache.kafka.common.errors.TimeoutException;
import org.apache.kafka.common.security.scram.ScramLoginModule;
import org.apache.kafka.common.security.scram.internals.ScramSaslServerProvider;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.api.storage.DataFolder;

/** The contract against the broker in this process, and what is its own. */
class EmbeddedBrokerIT extends BrokerContractTest {

  private static final String SERVER_MECHANISM = "SaslServerFactory.SCRAM-SHA-512";

  private static Path folder;
  private static EmbeddedBroker broker;

  @BeforeAll
  static void startBroker(@TempDir Path temporary) {
    folder = temporary;
    broker = start(folder, 0);
  }

  @AfterAll
  static void stopBroker() {
    broker.close();
  }

  @Override
  Map<String, Object> clientSettings() {
    return settings(logins().program());
  }

  @Test
  void shouldKeepItsDataOverARestart() throws Exception {
    write("before");
    broker.close();
    broker = start(folder, 0);
    write("after");
    assertThat(readAgain(2)).containsExactly("before", "after");
  }

  @Test
  void shouldNameTheFolderThatIsInUse(@TempDir Path other) {
    assertThatThrownBy(() -> start(folder, 0))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining(folder.toString())
        .hasMessageContaining("in use");
    EmbeddedBroker second = start(other, 0);
    second.close();
  }

  @Test
  void shouldNameThePortThatIsTakenAndLetGoOfTheFolder(@TempDir Path other) {
    int taken = port();
    assertThatThrownBy(() -> start(other, taken))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining("Port " + taken);
    DataFolder.take(other).close();
  }

  @Test
  void shouldNameTheFolderThatCannotBeMade(@TempDir Path other) throws Exception {
    Path file = Files.createFile(other.resolve("file"));
    assertThatThrownBy(() -> EmbeddedBroker.start(file, 0, logins()))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining(file.toString());
  }

  /** As any other user of this machine would try it. */
  @Test
  void shouldServeNobodyWithoutThePassword(@TempDir Path other) throws Exception {
    write("before");
    assertThat(refused(settings(logins().program()))).as("in the same time").isNull();
    assertThat(refused(Map.of("bootstrap.servers", broker.bootstrapServers())))
        .hasCauseInstanceOf(TimeoutException.class);
    BrokerLogins foreign = BrokerLogins.in(other);
    assertThat(refused(settings(foreign.program())))
        .hasCauseInstanceOf(SaslAuthenticationException.class);
    assertThat(readAgain(1)).containsExactly("before");
  }

  /** Whoever speaks to the controller makes and deletes topics. */
  @Test
  void shouldLetTheProgramAloneSpeakToTheController() throws Exception {
    Map<String, Object> program = new HashMap<>(logins().program().brokerSettings());
    program.put("bootstrap.controllers", broker.controllers());
    try (Admin admin = Admin.create(program)) {
      assertThat(admin.describeCluster().controller().get().port()).isPositive();
    }
    Map<String, Object> client = new HashMap<>(logins().client().brokerSettings());
    client.put("bootstrap.controllers", broker.controllers());
    assertThat(refused(client)).hasCauseInstanceOf(SaslAuthenticationException.class);
    assertThat(refused(Map.of("bootstrap.controllers", broker.controllers())))
        .hasCauseInstanceOf(TimeoutException.class);
  }

  /** One that asked nobody: no users in its metadata, all listeners in clear. */
  @Test
  void shouldKeepTheDataOfAnEarlierRelease(@TempDir Path earlier) throws Exception {
    EarlierBroker.write(earlier, "earlier", List.of("one", "two"));
    try (EmbeddedBroker now = start(earlier, 0)) {
      Map<String, Object> settings =
          new HashMap<>(BrokerLogins.in(earlier).program().brokerSettings());
      settings.put("bootstrap.servers", now.bootstrapServers());
      assertThat(EarlierBroker.read(settings, "earlier", 2)).containsExactly("one", "two");
    }
  }

  /** As in development mode, and where tests start the application more than once. */
  @Test
  void shouldStartWhereAnotherApplicationAddedItsMechanisms(@TempDir Path other) throws Exception {
    URL kafka = ScramLoginModule.class.getProtectionDomain().getCodeSource().getLocation();
    try (URLClassLoader before =
        new URLClassLoader(new URL[] {kafka}, ClassLoader.getPlatformClassLoader())) {
      Security.removeProvider(Security.getProviders(SERVER_MECHANISM)[0].getName());
      before
          .loadClass(ScramSaslServerProvider.class.getName())
          .getMethod("initialize")
          .invoke(null);
      start(other, 0).close();
    }
  }

  private static Throwable refused(Map<String, Object> settings) {
    Map<String, Object> impatient = new HashMap<>(settings);
    impatient.put("request.timeout.ms", 5_000);
    impatient.put("default.api.timeout.ms", 10_000);
    try (Admin admin = Admin.create(impatient)) {
      return catchThrowable(() -> admin.describeCluster().nodes().get());
    }
  }

  @Test
  void shouldListenOnNoAddressThatAnotherMachineReaches() throws Exception {
    try (Socket loopback = new Socket("127.0.0.1", port())) {
      assertThat(loopback.isConnected()).isTrue();
    }
    List<InetAddress> outer =
        Collections.list(NetworkInterface.getNetworkInterfaces()).stream()
            .flatMap(NetworkInterface::inetAddresses)
            .filter(address -> !address.isLoopbackAddress())
            .toList();
    for (InetAddress address : outer) {
      assertThatThrownBy(() -> new Socket(address, port()).close())
          .as(address.toString())
          .isInstanceOf(IOException.class);
    }
  }

  private static EmbeddedBroker start(Path folder, int port) {
    return EmbeddedBroker.start(folder, port, BrokerLogins.in(folder));
  }

  private static BrokerLogins logins() {
    return BrokerLogins.in(folder);
  }

  private static Map<String, Object> settings(BrokerLogins.Login login) {
    Map<String, Object> settings = new HashMap<>(login.brokerSettings());
    settings.put("bootstrap.servers", broker.bootstrapServers());
    return settings;
  }

  private static int port() {
    String address = broker.bootstrapServers();
    return Integer.parseInt(address.substring(address.lastIndexOf(':') + 1));
  }
}
