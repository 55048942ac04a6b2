package org.kornspur.api.security.connection;

import io.smallrye.common.net.CidrAddress;
import io.smallrye.common.net.Inet;
import jakarta.enterprise.context.ApplicationScoped;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/** The proxies that the setting {@code quarkus.http.proxy.trusted-proxies} names. */
@ApplicationScoped
public class TrustedProxies {
  private final List<CidrAddress> networks;

  TrustedProxies(
      @ConfigProperty(name = "quarkus.http.proxy.proxy-address-forwarding")
          Optional<Boolean> trusted,
      @ConfigProperty(name = "quarkus.http.proxy.trusted-proxies") Optional<List<String>> named) {
    this.networks =
        trusted.orElse(false)
            ? named.orElse(List.of()).stream().flatMap(TrustedProxies::networks).toList()
            : List.of();
  }

  boolean include(InetAddress address) {
    return networks.stream().anyMatch(network -> network.matches(address));
  }

  /** A network, an address, or a host name; the latter two perhaps with a port. */
  private static Stream<CidrAddress> networks(String text) {
    CidrAddress network = Inet.parseCidrAddress(text.strip());
    if (network != null) {
      return Stream.of(network);
    }
    String host = text.strip();
    if (Inet.parseInetAddress(host) == null) {
      host = host.replaceFirst(":\\d+$", "");
    }
    try {
      return Arrays.stream(InetAddress.getAllByName(host))
          .map(address -> CidrAddress.create(address, address.getAddress().length * Byte.SIZE));
    } catch (UnknownHostException unknown) {
      return Stream.empty();
    }
  }
}
