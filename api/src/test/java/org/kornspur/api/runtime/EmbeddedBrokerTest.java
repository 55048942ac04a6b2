package org.kornspur.api.runtime;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The contract against the broker in this process, and what is its own. */
class EmbeddedBrokerTest extends BrokerContractTest {

  private static Path folder;
  private static EmbeddedBroker broker;

  @BeforeAll
  static void startBroker(@TempDir Path temporary) {
    folder = temporary;
    broker = EmbeddedBroker.start(folder, 0);
  }

  @AfterAll
  static void stopBroker() {
    broker.close();
  }

  @Override
  String bootstrapServers() {
    return broker.bootstrapServers();
  }

  @Test
  void shouldKeepItsDataOverARestart() throws Exception {
    write("before");
    broker.close();
    broker = EmbeddedBroker.start(folder, 0);
    write("after");
    assertThat(readAgain(2)).containsExactly("before", "after");
  }

  @Test
  void shouldNameTheFolderThatIsInUse(@TempDir Path other) {
    assertThatThrownBy(() -> EmbeddedBroker.start(folder, 0))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining(folder.toString())
        .hasMessageContaining("in use");
    EmbeddedBroker second = EmbeddedBroker.start(other, 0);
    second.close();
  }

  @Test
  void shouldNameThePortThatIsTakenAndLetGoOfTheFolder(@TempDir Path other) {
    int taken = port();
    assertThatThrownBy(() -> EmbeddedBroker.start(other, taken))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining("Port " + taken);
    DataFolder.take(other).close();
  }

  @Test
  void shouldNameTheFolderThatCannotBeMade(@TempDir Path other) throws Exception {
    Path file = Files.createFile(other.resolve("file"));
    assertThatThrownBy(() -> EmbeddedBroker.start(file, 0))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining(file.toString());
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

  private static int port() {
    String address = broker.bootstrapServers();
    return Integer.parseInt(address.substring(address.lastIndexOf(':') + 1));
  }
}
