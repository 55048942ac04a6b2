package org.kornspur.api.web;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts of lists and their filters. */
@MessageBundle("list")
public interface ListMessages {

  @Message
  String season();

  @Message
  String hybrid();

  @Message
  String holder();

  @Message
  String category();

  @Message
  String state();

  @Message
  String id();

  @Message
  String all();

  @Message
  String show();

  @Message
  String showAll();

  @Message
  String filters();

  @Message
  String found(String total);

  @Message
  String nothing();

  @Message
  String lot();

  @Message
  String crop();

  @Message
  String idColumn();

  @Message
  String why();

  @Message
  String seed();

  @Message
  String left();

  @Message
  String judged();
}
