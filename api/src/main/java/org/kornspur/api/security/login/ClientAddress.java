package org.kornspur.api.security.login;

import io.vertx.core.net.SocketAddress;
import io.vertx.ext.web.RoutingContext;

/** Where a request comes from; what a trusted proxy says counts. */
public final class ClientAddress {

  private ClientAddress() {}

  public static String of(RoutingContext context) {
    SocketAddress remote = context.request().remoteAddress();
    // a proxy may name a host that is no address
    return remote.hostAddress() == null ? remote.host() : remote.hostAddress();
  }
}
