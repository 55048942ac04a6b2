package org.kornspur.api.text;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts of the one sentence that says how a crop or lot stands. */
@MessageBundle("standing")
public interface StandingMessages {

  @Message
  String lot(String id);

  @Message
  String crop(String id);

  @Message
  String fit(String name, String gates);

  @Message
  String notFit(String name, String gates);

  @Message
  String owed(String name, String gates);

  @Message
  String unknown(String name);

  @Message
  String inheritedGate(String gate, String origin);
}
