package org.kornspur.api.web;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;
import org.kornspur.processors.advice.PredictionAgainstTruth;

/** Texts of the page on seasons. */
@MessageBundle("seasons")
public interface SeasonsMessages {

  @Message
  String fit(PredictionAgainstTruth.Fit fit);

  @Message
  String method(String name);

  @Message
  String lots();

  @Message
  String crops();

  @Message
  String season();

  @Message
  String drawn();

  @Message
  String all();

  @Message
  String givenOut();

  @Message
  String truth();

  @Message
  String advice();

  @Message
  String key(String from);

  @Message
  String noResults();

  @Message
  String predicted();

  @Message
  String observed();

  @Message
  String verdict();

  @Message
  String inside(String inside, String all);

  @Message
  String difference(String points);

  @Message
  String hybridOnly();
}
