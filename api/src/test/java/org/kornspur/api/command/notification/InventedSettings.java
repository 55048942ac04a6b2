package org.kornspur.api.command.notification;

import java.time.Duration;
import java.util.Optional;

/** Settings of a test, as an administrator could have given them. */
record InventedSettings(
    Optional<String> host, int port, Security security, boolean privateAddresses, Duration timeout)
    implements NotificationSettings, NotificationSettings.Mail, NotificationSettings.Notifications {

  static InventedSettings webhooks(boolean privateAddresses, Duration timeout) {
    return new InventedSettings(Optional.empty(), 25, Security.NONE, privateAddresses, timeout);
  }

  static InventedSettings mail(int port, Security security) {
    return new InventedSettings(
        Optional.of("127.0.0.1"), port, security, false, Duration.ofSeconds(5));
  }

  @Override
  public String publicAddress() {
    return "https://seed.example";
  }

  @Override
  public Mail mail() {
    return this;
  }

  @Override
  public Notifications notifications() {
    return this;
  }

  @Override
  public Optional<String> user() {
    return Optional.empty();
  }

  @Override
  public Optional<String> password() {
    return Optional.empty();
  }

  @Override
  public Optional<String> from() {
    return Optional.of("kornspur@seed.example");
  }

  @Override
  public int attempts() {
    return 3;
  }

  @Override
  public Duration firstPause() {
    return Duration.ofMillis(100);
  }

  @Override
  public int messagesPerMinute() {
    return 5;
  }

  @Override
  public int dailyHour() {
    return 6;
  }

  @Override
  public int issuedRolesDays() {
    return 14;
  }

  @Override
  public Duration interval() {
    return Duration.ofSeconds(1);
  }
}
