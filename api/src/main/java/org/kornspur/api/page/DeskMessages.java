package org.kornspur.api.page;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts of the quality desk. */
@MessageBundle("desk")
public interface DeskMessages {

  @Message("What needs you now")
  String title();

  @Message("Nothing waits. Every lot that these filters leave is fit or complete.")
  String clear();

  @Message("Changes appear here by themselves.")
  String live();

  @Message("To see changes, load the page again.")
  String notLive();

  @Message("{subject} is now: {state}")
  String changed(String subject, String state);

  @Message("{count} standings changed; the desk shows them.")
  String changedMany(String count);

  @Message("Releases that are suspended")
  String suspended();

  @Message("{count} more: see all suspended releases")
  String moreSuspended(String count);

  @Message("{count} more: see all that wait for a second signature")
  String moreSecondSignatures(String count);

  @Message("Not fit, by what it began with")
  String causes();

  @Message("No lot or crop is not fit.")
  String noCauses();

  @Message("Lots that are not fit for it")
  String lots();

  @Message("In store")
  String inStore();

  @Message("At customers")
  String atCustomers();

  @Message("Judged")
  String judged();

  @Message("{count} more {#if count == '1'}cause{#else}causes{/if}: see all that is not fit")
  String moreCauses(String count);

  @Message("Evidence owed, what is due first")
  String owed();

  @Message("No evidence is owed.")
  String noOwed();

  @Message("{count} more: see the lots that owe evidence")
  String moreOwed(String count);

  @Message("Bring")
  String bring();

  @Message("Due")
  String due();

  @Message("flowers until {day}: {days} {#if days == '1'}day{#else}days{/if} left")
  String flowersUntil(String day, String days);

  @Message("flowering begins {day}: {days} {#if days == '1'}day{#else}days{/if} left")
  String flowersFrom(String day, String days);

  @Message("flowering ended {day}: it can no longer be seen in this crop")
  String floweredUntil(String day);

  @Message("flowering began {day}: measure at once")
  String flowersSince(String day);

  @Message("while it flowers; the flowering days are not declared")
  String floweringUnknown();

  @Message("before release")
  String beforeRelease();

  @Message("Waiting for a second signature")
  String secondSignatures();

  @Message("Quarantine")
  String quarantine();

  @Message("Nothing waits in quarantine.")
  String noQuarantine();

  @Message(
      "{#if count == '1'}1 refused input waits:{#else}{count} refused inputs wait; the newest:{/if}")
  String quarantined(String count);

  @Message("See all in quarantine")
  String allQuarantine();

  @Message("since {time}")
  String since(String time);
}
