package org.kornspur.api.command.notification;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Role;
import org.kornspur.contract.IssuedRoles;
import org.kornspur.contract.NotificationChannel;
import org.kornspur.contract.NotificationChoice;

/** For how long the word of an issuer counts. */
class ReceiversTest {
  private static final Instant SAID = Instant.parse("2026-05-30T10:00:00Z");
  private static final Duration LONGEST = Duration.ofDays(14);

  @Test
  void theRolesOfTheLatestTokenCountAsLongAsItIsRecent() {
    Caller known = Receivers.known(choice(), SAID.plus(Duration.ofDays(13)), LONGEST).orElseThrow();
    assertThat(known.personId()).isEqualTo("grower");
    assertThat(known.roles()).containsExactly(Role.MULTIPLIER);
    assertThat(known.enterpriseId()).contains("ENT-1");

    assertThat(Receivers.known(choice(), SAID.plus(LONGEST), LONGEST)).isEmpty();
  }

  @Test
  void ofWhomNoIssuerSaidAnythingNothingIsKnown() {
    NotificationChoice nothing = NotificationChoice.newBuilder(choice()).setIssued(null).build();
    assertThat(Receivers.known(nothing, SAID, LONGEST)).isEqualTo(Optional.empty());
  }

  private static NotificationChoice choice() {
    return NotificationChoice.newBuilder()
        .setPersonId("grower")
        .setLanguage("en")
        .setChannel(NotificationChannel.WEBHOOK)
        .setAddress("https://203.0.113.7/hook")
        .setSecretId("s")
        .setWishes(List.of())
        .setDaysAhead(7)
        .setChosenAt(SAID)
        .setIssued(
            IssuedRoles.newBuilder()
                .setRoles(List.of("MULTIPLIER", "A_ROLE_OF_A_LATER_VERSION"))
                .setEnterpriseId("ENT-1")
                .setSaidAt(SAID)
                .build())
        .build();
  }
}
