package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.mail.Authenticator;
import jakarta.mail.Message;
import jakarta.mail.MessagingException;
import jakarta.mail.PasswordAuthentication;
import jakarta.mail.SendFailedException;
import jakarta.mail.Session;
import jakarta.mail.Transport;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeMessage;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.Properties;
import org.kornspur.contract.NotificationFailure;

/**
 * Gives messages to the mail server of the site.
 *
 * <p>Sources: RFC 5322, section 3.6.4, for the Message-ID; RFC 3834, section 5, for Auto-Submitted,
 * by which no program answers.
 */
@ApplicationScoped
public class MailSender {
  private static final String PLAIN_ID = "Kornspur-Message-Id";

  private final NotificationSettings settings;

  public MailSender(NotificationSettings settings) {
    this.settings = settings;
  }

  /** Whether mail can be sent at all. */
  public boolean isSetUp() {
    return settings.mail().host().isPresent() && settings.mail().from().isPresent();
  }

  /** Whether a text is one whole address, as {@code name@place.example}, and nothing besides. */
  static boolean isAddress(String text) {
    try {
      InternetAddress[] parsed = InternetAddress.parse(text, true);
      return parsed.length == 1
          && parsed[0].getAddress().equals(text)
          && text.indexOf('@') > 0
          && text.chars().allMatch(letter -> letter > ' ' && letter < 127);
    } catch (MessagingException notAnAddress) {
      return false;
    }
  }

  void send(WrittenMessage message, String address) throws DeliveryFailed {
    if (!isSetUp()) {
      throw new DeliveryFailed(NotificationFailure.NOT_SET_UP, null);
    }
    try {
      Transport.send(mime(message, address));
    } catch (SendFailedException refused) {
      throw new DeliveryFailed(NotificationFailure.NOT_TAKEN, refused.getMessage());
    } catch (MessagingException failed) {
      throw new DeliveryFailed(NotificationFailure.NOT_REACHED, failed.getMessage());
    }
  }

  private MimeMessage mime(WrittenMessage message, String address) throws MessagingException {
    MimeMessage mime =
        new MimeMessage(session()) {
          @Override
          protected void updateMessageID() throws MessagingException {
            setHeader("Message-ID", "<" + message.messageId() + "@kornspur>");
          }
        };
    String charset = StandardCharsets.UTF_8.name();
    mime.setFrom(new InternetAddress(settings.mail().from().orElseThrow(), true));
    mime.setRecipient(Message.RecipientType.TO, new InternetAddress(address, true));
    mime.setSubject("Kornspur: " + message.title(), charset);
    mime.setSentDate(Date.from(message.madeAt()));
    mime.setHeader("Auto-Submitted", "auto-generated");
    mime.setHeader("Content-Language", message.language());
    mime.setHeader(PLAIN_ID, message.messageId());
    mime.setText(text(message), charset);
    return mime;
  }

  private static String text(WrittenMessage message) {
    List<String> parts = new ArrayList<>();
    message.lines().forEach(line -> parts.add(line.text() + "\n" + line.link()));
    if (!message.moreText().isEmpty()) {
      parts.add(message.moreText());
    }
    parts.add(message.caution() + "\n" + message.settings());
    return String.join("\n\n", parts) + "\n";
  }

  private Session session() {
    NotificationSettings.Mail mail = settings.mail();
    String limit = Long.toString(settings.notifications().timeout().toMillis());
    Properties properties = new Properties();
    properties.put("mail.smtp.host", mail.host().orElseThrow());
    properties.put("mail.smtp.port", Integer.toString(mail.port()));
    properties.put("mail.smtp.connectiontimeout", limit);
    properties.put("mail.smtp.timeout", limit);
    properties.put("mail.smtp.writetimeout", limit);
    properties.put("mail.smtp.ssl.checkserveridentity", "true");
    switch (mail.security()) {
      case NONE -> {
        // a server on the same machine
      }
      case STARTTLS -> {
        properties.put("mail.smtp.starttls.enable", "true");
        properties.put("mail.smtp.starttls.required", "true");
      }
      case TLS -> properties.put("mail.smtp.ssl.enable", "true");
    }
    if (mail.user().isEmpty()) {
      return Session.getInstance(properties);
    }
    properties.put("mail.smtp.auth", "true");
    return Session.getInstance(
        properties,
        new Authenticator() {
          @Override
          protected PasswordAuthentication getPasswordAuthentication() {
            return new PasswordAuthentication(
                mail.user().orElseThrow(), mail.password().orElse(""));
          }
        });
  }
}
