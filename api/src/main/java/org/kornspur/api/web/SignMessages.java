package org.kornspur.api.web;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts of the page where a person signs, and of what was signed. */
@MessageBundle("sign")
public interface SignMessages {

  @Message
  String title(String id);

  @Message
  String what();

  @Message
  String standing();

  @Message
  String verdicts();

  @Message
  String sealedText();

  @Message
  String seal();

  @Message
  String act();

  @Message
  String notNow();

  @Message
  String twoPersons();

  @Message
  String toCategory();

  @Message
  String ground();

  @Message
  String groundSeedQuality();

  @Message
  String groundPurityOrIdentity();

  @Message
  String corrects();

  @Message
  String reason();

  @Message
  String meaning();

  @Message
  String password();

  @Message
  String sign();

  @Message
  String notSigned();

  @Message
  String release();

  @Message
  String toSign();

  @Message
  String since(String time);

  @Message
  String nobody();

  @Message
  String signed(String name, String person, String time, String meaning, String reason);

  @Message
  String nameForgotten();

  @Message
  String refused(String person, String time);

  @Message
  String verifies();

  @Message
  String doesNotVerify();

  @Message
  String stillSealed();

  @Message
  String notSealed();
}
