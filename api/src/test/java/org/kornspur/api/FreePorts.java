package org.kornspur.api;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.BindException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.concurrent.ThreadLocalRandom;

/**
 * Ports of loopback for servers in processes of their own. They lie below those that systems give
 * to outgoing connections, so that none of these takes one before its server does; and none is
 * given out twice.
 */
public final class FreePorts {
  private static final int FIRST = 20_000;
  private static final int COUNT = 12_000;

  private static int last = ThreadLocalRandom.current().nextInt(COUNT);

  private FreePorts() {}

  /** The next one on which nobody listens. */
  public static synchronized int next() {
    for (int tried = 0; tried < COUNT; tried++) {
      last = (last + 1) % COUNT;
      if (isFree(FIRST + last)) {
        return FIRST + last;
      }
    }
    throw new IllegalStateException(
        "No port from %d to %d is free".formatted(FIRST, FIRST + COUNT - 1));
  }

  private static boolean isFree(int port) {
    try (ServerSocket socket = new ServerSocket(port, 1, InetAddress.getByName("127.0.0.1"))) {
      return socket.isBound();
    } catch (BindException taken) {
      return false;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
