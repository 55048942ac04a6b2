package org.kornspur.api.command.notification;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.internet.MimeMessage;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.FreePorts;
import org.kornspur.api.command.notification.NotificationSettings.Security;
import org.kornspur.contract.NotificationFailure;

/** Gives mail to a real SMTP server on loopback, of another make. */
class MailServerTest {
  private final int port = FreePorts.next();
  private final GreenMail server = new GreenMail(new ServerSetup(port, "127.0.0.1", "smtp"));

  @BeforeEach
  void start() {
    server.start();
  }

  @AfterEach
  void stop() {
    server.stop();
  }

  @Test
  void aMessageArrivesWithItsIdAndItsUmlauts() throws Exception {
    mail(Security.NONE).send(InventedMessage.german(), "anna@farm.example");

    MimeMessage[] all = server.getReceivedMessages();
    assertThat(all).hasSize(1);
    assertThat(all[0].getSubject()).isEqualTo("Kornspur: Nicht tauglich: für Prüfer");
    assertThat(all[0].getMessageID()).isEqualTo("<" + InventedMessage.ID + "@kornspur>");
    assertThat(all[0].getHeader("Kornspur-Message-Id")).containsExactly(InventedMessage.ID);
    assertThat(all[0].getHeader("Auto-Submitted")).containsExactly("auto-generated");
    assertThat(all[0].getAllRecipients())
        .extracting(Object::toString)
        .containsExactly("anna@farm.example");
    assertThat(((String) all[0].getContent()).replace("\r\n", "\n").strip() + "\n")
        .isEqualTo(
            """
            Partie L26-007 ist nicht tauglich.
            https://seed.example/lots/L26-007

            Und 3 weitere: siehe die Seiten.

            Eine Nachricht ist kein Nachweis.
            https://seed.example/notifications
            """);
  }

  /** The server offers no TLS: nothing may go in clear. */
  @Test
  void withoutTheTlsThatIsAskedForNothingIsSent() {
    DeliveryFailed failed = failure(mail(Security.STARTTLS));
    assertThat(failed.why()).isEqualTo(NotificationFailure.NOT_REACHED);
    assertThat(server.getReceivedMessages()).isEmpty();
  }

  @Test
  void nobodyThereIsAFailure() {
    server.stop();
    assertThat(failure(mail(Security.NONE)).why()).isEqualTo(NotificationFailure.NOT_REACHED);
  }

  @Test
  void withoutAServerNothingIsSent() {
    MailServer none =
        new MailServer(
            new InventedSettings(
                Optional.empty(), port, Security.NONE, false, Duration.ofSeconds(1)));
    assertThat(none.isSetUp()).isFalse();
    assertThat(failure(none).why()).isEqualTo(NotificationFailure.NOT_SET_UP);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "anna@farm.example | true",
        "a.b+c@farm.example | true",
        "anna | false",
        "@farm.example | false",
        "anna@farm.example, ben@farm.example | false",
        "Anna <anna@farm.example> | false",
        "anna@farm.example\\nBcc: ben@farm.example | false",
        "änna@farm.example | false"
      })
  void onlyOneWholeAddressIsOne(String text, boolean isOne) {
    assertThat(MailServer.isAddress(text.replace("\\n", "\n"))).isEqualTo(isOne);
  }

  private MailServer mail(Security security) {
    return new MailServer(InventedSettings.mail(port, security));
  }

  private static DeliveryFailed failure(MailServer mail) {
    return catchThrowableOfType(
        DeliveryFailed.class, () -> mail.send(InventedMessage.german(), "anna@farm.example"));
  }
}
