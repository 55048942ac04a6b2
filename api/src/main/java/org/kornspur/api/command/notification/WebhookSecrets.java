package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.HexFormat;
import java.util.UUID;
import org.kornspur.api.kafka.InternalSecret;
import org.kornspur.api.storage.SymmetricKey;
import org.kornspur.contract.NotificationChoice;

/**
 * The secrets that sign what webhooks get, and the codes that confirm an e-mail address. None is
 * kept: each is derived from the secret that all instances of the site share, for one person and
 * one random id, so that it cannot be read from a topic.
 */
@ApplicationScoped
public class WebhookSecrets {
  private static final int CODE_BYTES = 4;

  private final SymmetricKey key;

  public WebhookSecrets(InternalSecret secret) {
    this.key =
        new SymmetricKey(
            new SymmetricKey(secret.value().getBytes(StandardCharsets.UTF_8))
                .mac("Kornspur webhooks".getBytes(StandardCharsets.US_ASCII)));
  }

  /** What another secret is derived from. */
  static String newId() {
    return UUID.randomUUID().toString();
  }

  /** The secret of a choice. */
  public String of(NotificationChoice choice) {
    return Base64.getUrlEncoder().withoutPadding().encodeToString(mac(choice, ""));
  }

  /** The code that shows that mail arrives at the address of a choice: eight hexadecimal digits. */
  String codeOf(NotificationChoice choice) {
    return HexFormat.of().formatHex(mac(choice, "\n" + choice.getAddress()), 0, CODE_BYTES);
  }

  private byte[] mac(NotificationChoice choice, String further) {
    return key.mac(
        (choice.getSecretId() + "\n" + choice.getPersonId() + further)
            .getBytes(StandardCharsets.UTF_8));
  }
}
