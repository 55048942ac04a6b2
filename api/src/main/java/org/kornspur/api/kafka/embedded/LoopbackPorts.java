package org.kornspur.api.kafka.embedded;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import org.kornspur.api.storage.CannotStart;

/** Ports on this machine's loopback address, which no other machine can reach. */
final class LoopbackPorts {

  static final String HOST = "127.0.0.1";

  private LoopbackPorts() {}

  /**
   * A port for the broker and one for the controller, both free at this moment.
   *
   * @param wanted port of the broker, or 0 for any
   * @throws CannotStart if the wanted port is taken
   */
  static Pair freePair(int wanted) {
    try (ServerSocket broker = bind(wanted);
        ServerSocket controller = bind(0)) {
      return new Pair(broker.getLocalPort(), controller.getLocalPort());
    } catch (IOException e) {
      throw taken(wanted, e);
    }
  }

  record Pair(int broker, int controller) {}

  static CannotStart taken(int port, IOException cause) {
    return new CannotStart(
        "Port "
            + port
            + " on "
            + HOST
            + " cannot be opened: "
            + cause.getMessage()
            + ". Stop the program that listens there, or give another port; 0 takes any free one",
        cause);
  }

  private static ServerSocket bind(int port) throws IOException {
    ServerSocket socket = new ServerSocket();
    try {
      socket.bind(new InetSocketAddress(InetAddress.getByName(HOST), port));
      return socket;
    } catch (IOException e) {
      socket.close();
      throw e;
    }
  }
}
