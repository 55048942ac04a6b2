package org.kornspur.api.page;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts of the page of one lot or crop. */
@MessageBundle("lot")
public interface LotMessages {

  @Message("Lot {id}")
  String lot(String id);

  @Message("Crop {id}")
  String crop(String id);

  @Message(
      "{name} is fit. {#if gates == '1'}The one gate that applies is met.{#else}All {gates} gates"
          + " that apply are met.{/if}")
  String fit(String name, String gates);

  @Message("{name} is not fit. Not met: {gates}.")
  String notFit(String name, String gates);

  @Message("{name} waits for evidence: {gates}.")
  String owed(String name, String gates);

  @Message("{name} has a standing that this version does not know.")
  String unknown(String name);

  @Message("{gate} (from {origin})")
  String inheritedGate(String gate, String origin);

  @Message("On this page")
  String onThisPage();

  @Message("What it is")
  String identity();

  @Message("Hybrid")
  String hybrid();

  @Message("Seed")
  String seed();

  @Message("Category")
  String category();

  @Message("Season (year of harvest)")
  String season();

  @Message("Rulebook")
  String rulebook();

  @Message("Multiplier or owner")
  String holder();

  @Message("Came in")
  String held();

  @Message("Went out")
  String givenOut();

  @Message("In store")
  String left();

  @Message("Judged anew")
  String judged();

  @Message("Before you act")
  String cautions();

  @Message("Certification")
  String cautionAuthority();

  @Message("Sampling and testing")
  String cautionSampling();

  @Message("Ergot")
  String cautionErgot();

  @Message("Treated seed")
  String cautionTreated();

  @Message("Release")
  String cautionNotReleased();

  @Message("Gates")
  String gates();

  @Message("Value")
  String value();

  @Message("Limit")
  String limit();

  @Message("Margin")
  String margin();

  @Message("What it may truly be")
  String interval();

  @Message("{lower} to {upper} ({confidence} confidence)")
  String intervalOf(String lower, String upper, String confidence);

  @Message("at least {value}")
  String atLeast(String value);

  @Message("at most {value}")
  String atMost(String value);

  @Message("{margin} of room")
  String room(String margin);

  @Message("broken by {margin}")
  String broken(String margin);

  @Message("{gate}: {value}; limit {limit}; {margin}.")
  String scaleText(String gate, String value, String limit, String margin);

  @Message("Source")
  String source();

  @Message("not verified against the text")
  String notVerified();

  @Message("In the words of the record")
  String recorded();

  @Message("Rests on")
  String facts();

  @Message("To be brought")
  String toBring();

  @Message(
      "Beyond the thick line, on the shaded side, the limit is not met. The dot is the value, the"
          + " bar what it may truly be.")
  String scaleKey();

  @Message("What the rulebook asks for besides")
  String ruleNotes();

  @Message("Where nothing is asked for, nothing is counted as met.")
  String ruleNotesKey();

  @Message("Taken over from ancestors")
  String inherited();

  @Message("Nothing is taken over from ancestors.")
  String nothingInherited();

  @Message("condemns")
  String condemns();

  @Message("leaves evidence owed")
  String leavesOwed();

  @Message("Path")
  String path();

  @Message("Pedigree")
  String pedigree();

  @Message(
      "Seasons from left to right; each line is seed that moved, with its kilograms. A thick broken"
          + " line with a cross carries trouble down the pedigree.")
  String pedigreeKey();

  @Message("Pedigree of {id}, drawn; the same stands in the table below")
  String pedigreeDrawing(String id);

  @Message(
      "{shown} of {all} {#if shown == '1'}is{#else}are{/if} drawn: the nearest, and all that"
          + " trouble passes through.")
  String pedigreeCut(String shown, String all);

  @Message("{count} more")
  String more(String count);

  @Message("The pedigree as a table")
  String pedigreeTable();

  @Message("From")
  String from();

  @Message("To")
  String to();

  @Message("Mass")
  String mass();

  @Message("By")
  String by();

  @Message("On")
  String on();

  @Message("Trouble")
  String trouble();

  @Message("passes here")
  String troublePasses();

  @Message("Customers")
  String customers();

  @Message("Customer")
  String customer();

  @Message("year not known")
  String yearUnknown();

  @Message("Nothing came before, and nothing went on.")
  String noPedigree();

  @Message("Where it went")
  String forward();

  @Message(
      "Reached customers from this lot and all that it went into: {mass}. Where lots of other"
          + " origin were mixed in, their seed is counted too.")
  String dispatched(String mass);

  @Message("Nothing has reached a customer.")
  String nothingDispatched();

  @Message("Time line of facts")
  String timeLine();

  @Message(
      "{#if counting == '1'}1 fact counts{#else}{counting} facts count{/if}; {superseded}"
          + " {#if superseded == '1'}was corrected or taken back and stays{#else}were corrected or"
          + " taken back and stay{/if} on record.")
  String timeLineCounts(String counting, String superseded);

  @Message("recorded {time} by {person}")
  String recordedBy(String time, String person);

  @Message("Document: {document}")
  String document(String document);

  @Message("Does not count: fact {fact} took its place. Reason: {reason}")
  String supersededBy(String fact, String reason);

  @Message(
      "Does not count yet: it would take the place of an earlier fact, and nothing proves who sent"
          + " it. Quality confirms it by sending the same fact.")
  String awaitsConfirmation();

  @Message(
      "Still counts: fact {fact} would take it back or correct it, and nothing proves who sent that"
          + " fact. Reason given: {reason}. Quality confirms one or the other.")
  String unconfirmed(String fact, String reason);

  @Message("Corrects fact {fact}. Reason: {reason}")
  String corrects(String fact, String reason);

  @Message("Takes back fact {fact}. Reason: {reason}")
  String takesBack(String fact, String reason);

  @Message("Changed")
  String changed();

  @Message("was")
  String was();

  @Message("is")
  String is();

  @Message("none")
  String none();

  @Message("All recorded values")
  String values();

  @Message("Complete as far as facts have come in.")
  String traceComplete();

  @Message(
      "Incomplete: {#if count == '1'}1 crop or lot is named and nothing else is known of it:"
          + " {ids}.{#else}{count} crops or lots are named and nothing else is known of them:"
          + " {ids}.{/if}")
  String traceUnresolved(String count, String ids);

  @Message("Incomplete: the walk stopped at {count} crops and lots.")
  String traceCut(String count);
}
