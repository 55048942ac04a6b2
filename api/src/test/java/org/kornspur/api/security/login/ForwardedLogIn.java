package org.kornspur.api.security.login;

import java.io.IOException;
import java.net.URL;
import java.util.Map;
import org.kornspur.api.security.people.TestPeople;

/** A log-in as a proxy passes it on. */
final class ForwardedLogIn {
  private ForwardedLogIn() {}

  static Asking.Answer of(URL root, String from, String protocol)
      throws IOException, InterruptedException {
    return new Asking(root.toString())
        .ask(
            "POST",
            RoutePolicy.SESSION,
            Map.of(
                "Content-Type",
                "application/json",
                "X-Forwarded-For",
                from,
                "X-Forwarded-Proto",
                protocol),
            "{\"personId\": \"auditor\", \"password\": \"" + TestPeople.password() + "\"}");
  }
}
