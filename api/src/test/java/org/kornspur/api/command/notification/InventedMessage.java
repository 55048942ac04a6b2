package org.kornspur.api.command.notification;

import java.time.Instant;
import java.util.List;

/** A message as a person would read it. */
final class InventedMessage {
  static final String ID = "0b8f7f3e-5a57-4a2c-9d3c-2f6f4f1f7a10";

  private InventedMessage() {}

  static WrittenMessage german() {
    return new WrittenMessage(
        ID,
        Instant.parse("2026-05-30T04:00:07Z"),
        "de",
        "Nicht tauglich: für Prüfer",
        List.of(
            new WrittenMessage.Line(
                "NOT_FIT",
                "Partie L26-007 ist nicht tauglich.",
                "https://seed.example/lots/L26-007")),
        3,
        "Und 3 weitere: siehe die Seiten.",
        "Eine Nachricht ist kein Nachweis.",
        "https://seed.example/notifications");
  }
}
