package org.kornspur.api.web;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;
import org.kornspur.contract.QuarantineState;

/** Texts of the pages on refused input. */
@MessageBundle("quarantine")
public interface QuarantineMessages {

  @Message
  String state(QuarantineState state);

  @Message
  String nothing();

  @Message
  String where();

  @Message
  String received();

  @Message
  String stateColumn();

  @Message
  String why();

  @Message
  String wrong();

  @Message
  String field();

  @Message
  String value();

  @Message
  String expected();

  @Message
  String remedy();

  @Message
  String original(String bytes);

  @Message
  String base64();

  @Message
  String decide();

  @Message
  String replay();

  @Message
  String replayHint();

  @Message
  String discardReason();

  @Message
  String discard();

  @Message
  String replayedAs(String fact);

  @Message
  String decidedBy();

  @Message
  String decidedAt();

  @Message
  String decisionReason();

  @Message
  String refused();
}
