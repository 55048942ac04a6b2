package org.kornspur.api.command.notification;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.UnknownHostException;
import java.util.Arrays;
import java.util.Optional;
import org.kornspur.contract.NotificationFailure;

/**
 * Where a webhook is, and the one address that is asked. The name is looked up once, all its
 * addresses are held against the border, and the connection is made to the one that was looked at,
 * so that a name that changes meanwhile leads nowhere else.
 *
 * <p>Source: the special-purpose address registries of IANA (RFC 6890).
 */
record WebhookTarget(URI uri, InetAddress address) {
  private static final int LONGEST = 500;

  /** The web address of a text; empty where it is none with host, or names a user. */
  static Optional<URI> uri(String text) {
    try {
      URI uri = new URI(text);
      boolean isWeb = "https".equals(uri.getScheme()) || "http".equals(uri.getScheme());
      return Optional.of(uri)
          .filter(one -> isWeb && one.getHost() != null && one.getUserInfo() == null)
          .filter(one -> one.getFragment() == null && text.length() <= LONGEST);
    } catch (URISyntaxException notAnAddress) {
      return Optional.empty();
    }
  }

  /**
   * The target that a web address leads to.
   *
   * @param privateAddresses whether addresses of the own network and machine may be asked
   * @throws DeliveryFailed if it may not be asked, or has no address
   */
  static WebhookTarget of(URI uri, boolean privateAddresses) throws DeliveryFailed {
    InetAddress[] addresses;
    try {
      addresses = InetAddress.getAllByName(uri.getHost());
    } catch (UnknownHostException unknown) {
      throw new DeliveryFailed(NotificationFailure.NOT_REACHED, "no address for the name");
    }
    boolean isHere = Arrays.stream(addresses).allMatch(InetAddress::isLoopbackAddress);
    boolean isOpen = Arrays.stream(addresses).allMatch(WebhookTarget::isPublic);
    boolean isSecure = "https".equals(uri.getScheme()) || isHere;
    if (!isSecure || !(isOpen || privateAddresses)) {
      throw new DeliveryFailed(NotificationFailure.ADDRESS_REFUSED, null);
    }
    return new WebhookTarget(uri, addresses[0]);
  }

  int port() {
    if (uri.getPort() > 0) {
      return uri.getPort();
    }
    return isSecure() ? 443 : 80;
  }

  boolean isSecure() {
    return "https".equals(uri.getScheme());
  }

  /** Path and query. */
  String path() {
    String path = uri.getRawPath().isEmpty() ? "/" : uri.getRawPath();
    return uri.getRawQuery() == null ? path : path + "?" + uri.getRawQuery();
  }

  /** Whether an address is one of the public network. */
  static boolean isPublic(InetAddress address) {
    if (address.isAnyLocalAddress()
        || address.isLoopbackAddress()
        || address.isLinkLocalAddress()
        || address.isSiteLocalAddress()
        || address.isMulticastAddress()) {
      return false;
    }
    byte[] bytes = address.getAddress();
    int first = bytes[0] & 0xff;
    int second = bytes[1] & 0xff;
    if (address instanceof Inet4Address) {
      return switch (first) {
        case 0 -> false; // this network
        case 100 -> second < 64 || second > 127; // shared by providers
        case 192 -> second != 0 || bytes[2] != 0; // protocol assignments
        case 198 -> second != 18 && second != 19; // benchmarks
        default -> first < 240; // reserved, and broadcast
      };
    }
    // global unicast is 2000::/3; of it 2001::/23 and 2002::/16 lead to addresses within addresses,
    // and documentation is no place
    boolean isGlobal = first >> 5 == 1;
    boolean isTunnel =
        first == 0x20 && (second == 0x02 || (second == 0x01 && (bytes[2] & 0xfe) == 0));
    return isGlobal && !isTunnel;
  }
}
