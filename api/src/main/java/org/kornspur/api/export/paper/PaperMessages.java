package org.kornspur.api.export.paper;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;
import org.kornspur.standing.ReleaseStep;

/** Texts of papers, besides those of the auditor's pages. */
@MessageBundle("paper")
public interface PaperMessages {

  @Message
  String dossierOfLot(String id);

  @Message
  String dossierOfCrop(String id);

  @Message
  String printed(String time);

  @Message
  String page();

  @Message
  String of();

  @Message
  String contents();

  @Message
  String what();

  @Message
  String standing();

  @Message
  String hybrid();

  @Message
  String seed();

  @Message
  String category();

  @Message
  String cropYear();

  @Message
  String rulebook();

  @Message
  String holder();

  @Message
  String masses();

  @Message
  String cautions();

  @Message
  String verdicts();

  @Message
  String gate();

  @Message
  String result();

  @Message
  String found();

  @Message
  String limit();

  @Message
  String facts();

  @Message
  String ruleNotes();

  @Message
  String inherited();

  @Message
  String nothingInherited();

  @Message
  String back();

  @Message
  String forward();

  @Message
  String customers();

  @Message
  String balance();

  @Message
  String factsOfLot();

  @Message
  String factsOfCrop();

  @Message
  String ancestor(String name);

  @Message
  String leftOut(String count);

  @Message
  String noNewFacts();

  @Message
  String happened();

  @Message
  String recorded();

  @Message
  String by();

  @Message
  String document();

  @Message
  String sha256();

  @Message
  String superseded(String reason, String fact);

  @Message
  String release();

  @Message
  String step(ReleaseStep step);

  @Message
  String noSignatures();

  @Message
  String printedName();

  @Message
  String person();

  @Message
  String signedAt();

  @Message
  String meaning();

  @Message
  String toCategory();

  @Message
  String ground();

  @Message
  String corrects();

  @Message
  String correctedBy();

  @Message
  String signature();

  @Message
  String key();

  @Message
  String seal();

  @Message
  String refusedAct();

  @Message
  String refusedTo();

  @Message
  String refusedAt();

  @Message
  String why();

  @Message
  String unreleased(String mass);

  @Message
  String integrity();

  @Message
  String hashed(String facts, String subjects);

  @Message
  String howToCheck();

  @Message
  String proof();

  @Message
  String proofElsewhere();

  @Message
  String checkpoints();

  @Message
  String covered(String facts);

  @Message
  String notCovered();

  @Message
  String partition(String partition);

  @Message
  String checkpoint(String number, String sequence, String offset, String time);

  @Message
  String coversHere(String facts);

  @Message
  String noCheckpoint();

  @Message
  String waiting(String facts);

  @Message
  String notChained(String facts);

  @Message
  String link();

  @Message
  String previous();

  @Message
  String verifying();

  @Message
  String verifyProof();

  @Message
  String verifyKeys();

  @Message
  String verifyLog();

  @Message
  String yourName();

  @Message
  String keyFolder();

  @Message
  String exitCodes();

  @Message
  String noSignature();
}
