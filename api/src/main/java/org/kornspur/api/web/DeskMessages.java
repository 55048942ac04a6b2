package org.kornspur.api.web;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts of the quality desk. */
@MessageBundle("desk")
public interface DeskMessages {

  @Message
  String title();

  @Message
  String clear();

  @Message
  String live();

  @Message
  String notLive();

  @Message
  String changed(String subject, String state);

  @Message
  String changedMany(String count);

  @Message
  String suspended();

  @Message
  String moreSuspended(String count);

  @Message
  String moreSecondSignatures(String count);

  @Message
  String causes();

  @Message
  String noCauses();

  @Message
  String lots();

  @Message
  String inStore();

  @Message
  String atCustomers();

  @Message
  String judged();

  @Message
  String moreCauses(String count);

  @Message
  String owed();

  @Message
  String noOwed();

  @Message
  String moreOwed(String count);

  @Message
  String bring();

  @Message
  String due();

  @Message
  String flowersUntil(String day, String days);

  @Message
  String flowersFrom(String day, String days);

  @Message
  String floweredUntil(String day);

  @Message
  String flowersSince(String day);

  @Message
  String floweringUnknown();

  @Message
  String beforeRelease();

  @Message
  String secondSignatures();

  @Message
  String quarantine();

  @Message
  String noQuarantine();

  @Message
  String quarantined(String count);

  @Message
  String allQuarantine();

  @Message
  String since(String time);
}
