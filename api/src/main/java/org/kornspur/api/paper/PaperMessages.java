package org.kornspur.api.paper;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;
import org.kornspur.standing.ReleaseStep;

/** Texts of papers, besides those of the auditor's pages. */
@MessageBundle("paper")
public interface PaperMessages {

  @Message("Dossier of lot {id}")
  String dossierOfLot(String id);

  @Message("Dossier of crop {id}")
  String dossierOfCrop(String id);

  @Message("Printed {time} by Kornspur")
  String printed(String time);

  @Message("Page")
  String page();

  @Message("of")
  String of();

  @Message("Contents")
  String contents();

  @Message("What it is")
  String what();

  @Message("Standing")
  String standing();

  @Message("Hybrid")
  String hybrid();

  @Message("Seed")
  String seed();

  @Message("Category")
  String category();

  @Message("Year of harvest")
  String cropYear();

  @Message("Rulebook")
  String rulebook();

  @Message("Enterprise")
  String holder();

  @Message("Mass in, out and left")
  String masses();

  @Message("Cautions")
  String cautions();

  @Message("Verdicts and their sources")
  String verdicts();

  @Message("Gate")
  String gate();

  @Message("Result")
  String result();

  @Message("Found")
  String found();

  @Message("Limit and source")
  String limit();

  @Message("Facts")
  String facts();

  @Message("Taken over from ancestors")
  String inherited();

  @Message("Nothing is taken over from ancestors.")
  String nothingInherited();

  @Message("The way back")
  String back();

  @Message("The way forward")
  String forward();

  @Message("Customers and label numbers")
  String customers();

  @Message("Mass balance")
  String balance();

  @Message("Facts of this lot")
  String factsOfLot();

  @Message("Facts of this crop")
  String factsOfCrop();

  @Message("Ancestor: {name}")
  String ancestor(String name);

  @Message("{count} further ancestors are left out here; ask for their own dossiers.")
  String leftOut(String count);

  @Message("No fact that is not printed above.")
  String noNewFacts();

  @Message("happened")
  String happened();

  @Message("recorded")
  String recorded();

  @Message("by")
  String by();

  @Message("paper")
  String document();

  @Message("SHA-256")
  String sha256();

  @Message("Does not count: {reason} (by {fact})")
  String superseded(String reason, String fact);

  @Message("Release and signatures")
  String release();

  @Message
  String step(ReleaseStep step);

  @Message("Nobody has signed for this lot.")
  String noSignatures();

  @Message("Signed by {person} on {time}: {meaning}")
  String signed(String person, String time, String meaning);

  @Message("Seal over the dossier as it was signed:")
  String seal();

  @Message("Dispatched while it was not released: {mass}")
  String unreleased(String mass);

  @Message("Integrity")
  String integrity();

  @Message(
      "This dossier holds {facts} facts on {subjects} crops and lots. Their whole content is"
          + " enclosed in this PDF as dossier.json. SHA-256 over the bytes of that file:")
  String hashed(String facts, String subjects);

  @Message(
      "Who wants to check takes the enclosed file out of the PDF and reckons SHA-256 over it. The"
          + " same facts and standings always give the same bytes. Each fact bears its own"
          + " fingerprint besides, SHA-256 over its type and content.")
  String howToCheck();

  @Message("This print is no certificate and bears no signature of its own.")
  String noSignature();
}
