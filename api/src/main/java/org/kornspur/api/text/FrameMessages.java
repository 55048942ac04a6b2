package org.kornspur.api.text;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** What stands around every page: navigation, language, how fresh the data is, and refusals. */
@MessageBundle("frame")
public interface FrameMessages {

  @Message
  String skip();

  @Message
  String navigation();

  @Message
  String language();

  @Message
  String signedInAs(String name);

  @Message
  String signOut();

  @Message
  String signIn();

  @Message
  String user();

  @Message
  String password();

  @Message
  String signInRefused();

  @Message
  String signInWait();

  @Message
  String signInOwn();

  @Message
  String newPassword();

  @Message
  String asOfComplete(String time);

  @Message
  String asOfWaiting(String time, String records);

  @Message
  String asOfUnknown(String time);

  @Message
  String authority();

  @Message
  String ignoredTitle();

  @Message
  String ignored(String name, String value, String limit);

  @Message
  String ignoredShown();

  @Message
  String desk();

  @Message
  String lots();

  @Message
  String crops();

  @Message
  String bench();

  @Message
  String quarantine();

  @Message
  String fieldBook();

  @Message
  String seasons();

  @Message
  String trace();

  @Message
  String help();

  @Message
  String notFound();

  @Message
  String notFoundRemedy();

  @Message
  String forbidden();

  @Message
  String forbiddenRemedy();

  @Message
  String notReady();

  @Message
  String notReadyRemedy();

  @Message
  String refused();

  @Message
  String refusedRemedy();

  @Message
  String unexpected();

  @Message
  String unexpectedRemedy();

  @Message
  String status(int status);

  @Message
  String detail();

  @Message
  String pageOf(String page, String pages);

  @Message
  String pages();

  @Message
  String previous();

  @Message
  String next();
}
