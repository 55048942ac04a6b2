package org.kornspur.api.command.notification;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import java.time.Duration;
import java.util.Optional;

/** Settings under {@code kornspur.} for messages to persons. */
@ConfigMapping(prefix = "kornspur")
public interface NotificationSettings {

  /** Where others reach the pages; links of messages lead there. */
  @WithDefault("http://127.0.0.1:8080")
  String publicAddress();

  /** The mail server of the site. */
  Mail mail();

  /** How messages are sent. */
  Notifications notifications();

  /** The mail server of the site, to which messages are given. */
  interface Mail {

    /** Its name; without it no mail is sent. */
    Optional<String> host();

    @WithDefault("587")
    int port();

    /** How the connection is kept from others. */
    @WithDefault("starttls")
    Security security();

    /** Whom the program logs in as; without it, it does not log in. */
    Optional<String> user();

    Optional<String> password();

    /** Sender of the messages; needed with a server. */
    Optional<String> from();
  }

  /** How a connection to the mail server is kept from others. */
  enum Security {
    /** Not at all: for a server on the same machine. */
    NONE,
    /** By TLS, begun on the open connection; without it nothing is sent. */
    STARTTLS,
    /** By TLS from the first byte. */
    TLS
  }

  /** How messages are sent. */
  interface Notifications {

    /** Whether webhooks may be at private and loopback addresses, and there by plain HTTP. */
    @WithDefault("false")
    boolean privateAddresses();

    /** How often a message is tried before it is given up. */
    @WithDefault("12")
    int attempts();

    /** Pause before the second attempt; each further one is twice as long. */
    @WithDefault("PT15S")
    Duration firstPause();

    /** How long a server may take to answer. */
    @WithDefault("PT10S")
    Duration timeout();

    /** Most messages to one person in a minute; what comes in between goes with the next. */
    @WithDefault("5")
    int messagesPerMinute();

    /** Hour of the day, at the site, after which the daily message goes out. */
    @WithDefault("6")
    int dailyHour();

    /** How long the roles in a token count for messages, if no later token of the person comes. */
    @WithDefault("14")
    int issuedRolesDays();

    /** How often it is looked whether there is something to tell. */
    @WithDefault("PT5S")
    Duration interval();
  }
}
