package org.kornspur.api.page;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** What stands around every page: navigation, language, how fresh the data is, and refusals. */
@MessageBundle("frame")
public interface FrameMessages {

  @Message("Skip to the content")
  String skip();

  @Message("Main")
  String navigation();

  @Message("Language")
  String language();

  @Message("Signed in as {name}")
  String signedInAs(String name);

  @Message("Sign out")
  String signOut();

  @Message("Sign in")
  String signIn();

  @Message("User")
  String user();

  @Message("Password")
  String password();

  @Message("User or password is not right. Check both and try again.")
  String signInRefused();

  @Message("Too many wrong passwords. Wait a few minutes and try again.")
  String signInWait();

  @Message(
      "This password was issued by the administrator, who knows it too. Enter user and password"
          + " again, and choose a password of your own.")
  String signInOwn();

  @Message("New password (12 to 200 characters)")
  String newPassword();

  @Message("Data as of {time}. Everything that had come in is in it.")
  String asOfComplete(String time);

  @Message(
      "Data as of {time}. {#if records == '1'}1 record had come in and was{#else}{records}"
          + " records had come in and were{/if} not processed yet; what you see may change. Load the page again shortly.")
  String asOfWaiting(String time, String records);

  @Message(
      "Data as of {time}. Not everything that had come in may be processed yet; what you see may"
          + " change. Load the page again shortly.")
  String asOfUnknown(String time);

  @Message(
      "This is a reckoning from recorded facts. The certification authority decides, and release is"
          + " the act of a named person.")
  String authority();

  @Message("Not heeded")
  String unheededTitle();

  @Message("The address has {name} = {value}; what can be asked for is {limit}.")
  String unheeded(String name, String value, String limit);

  @Message("What is shown is what the address asks for without this.")
  String unheededShown();

  @Message("Quality desk")
  String desk();

  @Message("Lots")
  String lots();

  @Message("Crops")
  String crops();

  @Message("Bench")
  String bench();

  @Message("Quarantine")
  String quarantine();

  @Message("Field book")
  String fieldBook();

  @Message("Seasons")
  String seasons();

  @Message("Trace")
  String trace();

  @Message("Nothing is here")
  String notFound();

  @Message("Check the address and the id; ids are case-sensitive.")
  String notFoundRemedy();

  @Message("This is not yours to see or do")
  String forbidden();

  @Message("If you need it for your work, ask the administrator for the role that allows it.")
  String forbiddenRemedy();

  @Message("The page cannot be shown just now")
  String notReady();

  @Message("Kornspur is still starting or taking over work. Load the page again in a few seconds.")
  String notReadyRemedy();

  @Message("The request cannot be answered as it is")
  String refused();

  @Message("Go back, mend what is named here, and try again.")
  String refusedRemedy();

  @Message("Something went wrong here")
  String unexpected();

  @Message(
      "Try again; if it stays, give the incident id to whoever runs this server: the log has the"
          + " rest under it.")
  String unexpectedRemedy();

  @Message("Status {status}")
  String status(int status);

  @Message("What was asked, in detail")
  String detail();

  @Message("Page {page} of {pages}")
  String pageOf(String page, String pages);

  @Message("Pages of the list")
  String pages();

  @Message("Previous page")
  String previous();

  @Message("Next page")
  String next();
}
