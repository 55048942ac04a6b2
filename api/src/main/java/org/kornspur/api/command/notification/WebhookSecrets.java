package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.UUID;
import org.kornspur.api.kafka.InternalSecret;
import org.kornspur.api.storage.SymmetricKey;
import org.kornspur.contract.NotificationChoice;

/**
 * The secrets that sign what webhooks get. None is kept: each is derived from the secret that all
 * instances of the site share, for one person and one random id, so that it cannot be read from a
 * topic.
 */
@ApplicationScoped
public class WebhookSecrets {
  private final SymmetricKey key;

  @Inject
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
    return Base64.getUrlEncoder()
        .withoutPadding()
        .encodeToString(
            key.mac(
                (choice.getSecretId() + "\n" + choice.getPersonId())
                    .getBytes(StandardCharsets.UTF_8)));
  }
}
