package org.kornspur.api.command.notification;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import jakarta.mail.internet.MimeMessage;
import java.net.InetAddress;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.FreePorts;
import org.kornspur.api.command.notification.NotificationSettings.Security;
import org.kornspur.contract.NotificationFailure;
import org.subethamail.smtp.server.SMTPServer;
import org.subethamail.wiser.Wiser;
import org.subethamail.wiser.WiserMessage;

/** Gives mail to a real SMTP server on loopback, of another make. */
class MailSenderTest {
  private final int port = FreePorts.next();
  private final Wiser server =
      Wiser.create(SMTPServer.port(port).bindAddress(InetAddress.getLoopbackAddress()));

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

    List<WiserMessage> all = server.getMessages();
    assertThat(all).hasSize(1);
    MimeMessage mime = all.get(0).getMimeMessage();
    assertThat(mime.getSubject()).isEqualTo("Kornspur: Nicht tauglich: für Prüfer");
    assertThat(mime.getMessageID()).isEqualTo("<" + InventedMessage.ID + "@kornspur>");
    assertThat(mime.getHeader("Kornspur-Message-Id")).containsExactly(InventedMessage.ID);
    assertThat(mime.getHeader("Auto-Submitted")).containsExactly("auto-generated");
    assertThat(mime.getAllRecipients())
        .extracting(Object::toString)
        .containsExactly("anna@farm.example");
    assertThat(((String) mime.getContent()).replace("\r\n", "\n").strip() + "\n")
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
    assertThat(server.getMessages()).isEmpty();
  }

  @Test
  void nobodyThereIsAFailure() {
    server.stop();
    assertThat(failure(mail(Security.NONE)).why()).isEqualTo(NotificationFailure.NOT_REACHED);
  }

  @Test
  void withoutAServerNothingIsSent() {
    MailSender none =
        new MailSender(
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
    assertThat(MailSender.isAddress(text.replace("\\n", "\n"))).isEqualTo(isOne);
  }

  private MailSender mail(Security security) {
    return new MailSender(InventedSettings.mail(port, security));
  }

  private static DeliveryFailed failure(MailSender mail) {
    return catchThrowableOfType(
        DeliveryFailed.class, () -> mail.send(InventedMessage.german(), "anna@farm.example"));
  }
}
