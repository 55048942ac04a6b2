package org.kornspur.api.security.connection;

import io.netty.channel.ChannelFactory;
import io.netty.channel.ServerChannel;
import io.quarkus.arc.Arc;
import io.vertx.core.impl.VertxBuilder;
import io.vertx.core.impl.transports.JDKTransport;
import io.vertx.core.spi.VertxServiceProvider;

/**
 * Shows every new connection to {@link Connections} before the server under us takes it. Quarkus
 * tells of a connection only once the head of a request is whole, which an attacker never sends;
 * this is the place that Vert.x has for what happens earlier. Vert.x finds it by {@code
 * META-INF/services}.
 */
public final class LimitedTransport extends JDKTransport implements VertxServiceProvider {

  @Override
  public void init(VertxBuilder builder) {
    builder.findTransport(this);
  }

  @Override
  public ChannelFactory<? extends ServerChannel> serverChannelFactory(boolean domainSocket) {
    ChannelFactory<? extends ServerChannel> plain = super.serverChannelFactory(domainSocket);
    Connections connections = Arc.container().instance(Connections.class).get();
    return () -> {
      ServerChannel listening = plain.newChannel();
      listening.pipeline().addLast(connections.doorkeeper());
      return listening;
    };
  }
}
