package org.kornspur.api.web;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts of the page of one lot or crop. */
@MessageBundle("lot")
public interface LotMessages {

  @Message
  String onThisPage();

  @Message
  String identity();

  @Message
  String hybrid();

  @Message
  String seed();

  @Message
  String category();

  @Message
  String season();

  @Message
  String rulebook();

  @Message
  String holder();

  @Message
  String held();

  @Message
  String givenOut();

  @Message
  String left();

  @Message
  String judged();

  @Message
  String cautions();

  @Message
  String cautionAuthority();

  @Message
  String cautionSampling();

  @Message
  String cautionErgot();

  @Message
  String cautionTreated();

  @Message
  String cautionNotReleased();

  @Message
  String gates();

  @Message
  String value();

  @Message
  String limit();

  @Message
  String margin();

  @Message
  String interval();

  @Message
  String intervalOf(String lower, String upper, String confidence);

  @Message
  String atLeast(String value);

  @Message
  String atMost(String value);

  @Message
  String room(String margin);

  @Message
  String broken(String margin);

  @Message
  String scaleText(String gate, String value, String limit, String margin);

  @Message
  String source();

  @Message
  String notVerified();

  @Message
  String recorded();

  @Message
  String facts();

  @Message
  String toBring();

  @Message
  String scaleKey();

  @Message
  String ruleNotes();

  @Message
  String ruleNotesKey();

  @Message
  String inherited();

  @Message
  String nothingInherited();

  @Message
  String condemns();

  @Message
  String leavesOwed();

  @Message
  String path();

  @Message
  String pedigree();

  @Message
  String pedigreeKey();

  @Message
  String pedigreeDrawing(String id);

  @Message
  String pedigreeCut(String shown, String all);

  @Message
  String more(String count);

  @Message
  String pedigreeTable();

  @Message
  String from();

  @Message
  String to();

  @Message
  String mass();

  @Message
  String by();

  @Message
  String on();

  @Message
  String trouble();

  @Message
  String troublePasses();

  @Message
  String customers();

  @Message
  String customer();

  @Message
  String yearUnknown();

  @Message
  String noPedigree();

  @Message
  String forward();

  @Message
  String dispatched(String mass);

  @Message
  String nothingDispatched();

  @Message
  String timeLine();

  @Message
  String timeLineCounts(String counting, String superseded);

  @Message
  String recordedBy(String time, String person);

  @Message
  String document(String document);

  @Message
  String supersededBy(String fact, String reason);

  @Message
  String awaitsConfirmation();

  @Message
  String unconfirmed(String fact, String reason);

  @Message
  String corrects(String fact, String reason);

  @Message
  String takesBack(String fact, String reason);

  @Message
  String changed();

  @Message
  String was();

  @Message
  String is();

  @Message
  String none();

  @Message
  String values();

  @Message
  String traceComplete();

  @Message
  String traceUnresolved(String count, String ids);

  @Message
  String traceCut(String count);
}
