package org.kornspur.api.security.connection;

import io.netty.channel.Channel;
import io.netty.channel.ChannelFuture;
import io.netty.channel.ChannelFutureListener;
import io.netty.channel.ChannelHandler;
import io.netty.channel.ChannelHandler.Sharable;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelInboundHandlerAdapter;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.net.impl.ConnectionBase;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.CallerIdentity;

/**
 * Limits the connections of each address and of all, from the moment they are made. The last ones
 * of all are kept for addresses that have few, so that whoever opens many shuts nobody out. Trusted
 * proxies, who speak for many, are only counted among all.
 */
@ApplicationScoped
public class Connections {
  private static final int BEFORE_ALL_OTHERS = 3000;

  /** So many of all are kept for addresses that have few. */
  private static final int KEPT = 200;

  private static final int FEW = 4;

  /** Of an IPv6 address the half that names the network; its owner has all addresses in it. */
  private static final int NETWORK_BYTES = 8;

  private final int mostOfOne;
  private final int mostOfAll;
  private final TrustedProxies proxies;
  private final AtomicInteger all = new AtomicInteger();
  private final Map<String, Integer> byAddress = new ConcurrentHashMap<>();

  Connections(
      AccessSettings settings,
      TrustedProxies proxies,
      @ConfigProperty(name = "quarkus.http.limits.max-connections") int mostOfAll) {
    this.mostOfOne = settings.connectionsPerAddress();
    this.proxies = proxies;
    this.mostOfAll = mostOfAll;
  }

  void register(@Observes Filters filters) {
    filters.register(Connections::headIsWhole, BEFORE_ALL_OTHERS);
  }

  /** A handler for the pipeline of a listening socket. */
  ChannelHandler doorkeeper() {
    return new Doorkeeper();
  }

  @Sharable
  private final class Doorkeeper extends ChannelInboundHandlerAdapter {

    @Override
    public void channelRead(ChannelHandlerContext context, Object accepted) throws Exception {
      Channel connection = (Channel) accepted;
      if (!(connection.remoteAddress() instanceof InetSocketAddress remote)) {
        connection.unsafe().closeForcibly();
        return;
      }
      String address = name(remote.getAddress());
      if (!enter(address, proxies.include(remote.getAddress()))) {
        connection.unsafe().closeForcibly();
        return;
      }
      connection.closeFuture().addListener(closed -> leave(address));
      connection.pipeline().addLast(new RequestHeadDeadline());
      context.fireChannelRead(accepted);
    }
  }

  private boolean enter(String address, boolean isProxy) {
    int ofAddress = byAddress.merge(address, 1, Integer::sum);
    int ofAll = all.incrementAndGet();
    boolean may =
        isProxy
            ? ofAll <= mostOfAll
            : ofAddress <= mostOfOne && ofAll <= (ofAddress <= FEW ? mostOfAll : mostOfAll - KEPT);
    if (!may) {
      leave(address);
    }
    return may;
  }

  private void leave(String address) {
    all.decrementAndGet();
    byAddress.computeIfPresent(address, (name, count) -> count == 1 ? null : count - 1);
  }

  private static String name(InetAddress address) {
    byte[] bytes = address.getAddress();
    return HexFormat.of()
        .formatHex(address instanceof Inet6Address ? Arrays.copyOf(bytes, NETWORK_BYTES) : bytes);
  }

  private static void headIsWhole(RoutingContext context) {
    RequestHeadDeadline deadline = channel(context).pipeline().get(RequestHeadDeadline.class);
    if (deadline != null) {
      int request = deadline.headIsWhole();
      whenEnded(context, () -> deadline.answered(request, CallerIdentity.isKnown(context)));
    }
    context.next();
  }

  /**
   * Does something once the answer to a request is written or its connection is closed. The end
   * handlers of a context do not serve for that: RESTEasy puts its own in their place.
   */
  static void whenEnded(RoutingContext context, Runnable then) {
    AtomicBoolean isDone = new AtomicBoolean();
    ChannelFuture closed = channel(context).closeFuture();
    ChannelFutureListener listener = connection -> once(isDone, then);
    closed.addListener(listener);
    context.addBodyEndHandler(
        written -> {
          closed.removeListener(listener);
          once(isDone, then);
        });
  }

  private static void once(AtomicBoolean isDone, Runnable then) {
    if (isDone.compareAndSet(false, true)) {
      then.run();
    }
  }

  private static Channel channel(RoutingContext context) {
    return ((ConnectionBase) context.request().connection()).channel();
  }
}
