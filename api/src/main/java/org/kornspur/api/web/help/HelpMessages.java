package org.kornspur.api.web.help;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts around the manual; its pages themselves are Markdown files. */
@MessageBundle("help")
public interface HelpMessages {

  @Message
  String title();

  @Message
  String lead();

  @Message
  String search();

  @Message
  String query();

  @Message
  String queryHint();

  @Message
  String found(String count, String query);

  @Message
  String nothingFound(String query);

  @Message
  String contents();

  @Message
  String onThisPage();

  @Message
  String rules();

  @Message
  String rulesLead();

  @Message
  String rulesAsOf(String day);

  @Message
  String rulesKey();

  @Message
  String book();

  @Message
  String crops();

  @Message
  String seed();

  @Message
  String gate();

  @Message
  String asked();

  @Message
  String further();

  @Message
  String nothing();

  @Message
  String owed();

  @Message
  String notAsked();

  @Message
  String sources();

  @Message
  String source(int number);
}
