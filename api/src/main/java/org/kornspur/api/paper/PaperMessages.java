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

  @Message("What the rulebook asks for besides; nothing of it is counted as met")
  String ruleNotes();

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

  @Message(
      "{#if count == '1'}1 further ancestor is left out here; ask for its own"
          + " dossier.{#else}{count} further ancestors are left out here; ask for their own"
          + " dossiers.{/if}")
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

  @Message("Printed name")
  String printedName();

  @Message("Person")
  String person();

  @Message("Signed on")
  String signedAt();

  @Message("Meaning of the signature")
  String meaning();

  @Message("Into category")
  String toCategory();

  @Message("Ground")
  String ground();

  @Message("Corrects the act")
  String corrects();

  @Message("Corrected by the act")
  String correctedBy();

  @Message("Signature")
  String signature();

  @Message("Key")
  String key();

  @Message("Seal of what was signed")
  String seal();

  @Message("refused, nothing was signed")
  String refusedAct();

  @Message("Refused to person")
  String refusedTo();

  @Message("Refused on")
  String refusedAt();

  @Message("Why")
  String why();

  @Message("Dispatched while it was not released: {mass}")
  String unreleased(String mass);

  @Message("Integrity")
  String integrity();

  @Message(
      "This dossier holds {facts} {#if facts == '1'}fact{#else}facts{/if} on {subjects} {#if subjects == '1'}crop or lot{#else}crops and lots{/if}. Their whole content is"
          + " enclosed in this PDF as dossier.json. SHA-256 over the bytes of that file:")
  String hashed(String facts, String subjects);

  @Message(
      "Who wants to check takes the enclosed file out of the PDF and reckons SHA-256 over it. The"
          + " same facts and standings always give the same bytes. Each fact bears its own"
          + " fingerprint besides, SHA-256 over its type and content.")
  String howToCheck();

  @Message("Hash chain and checkpoints")
  String proof();

  @Message(
      "The checkpoints that cover these facts are shown to those who may read the log: quality and"
          + " auditors. Ask them for a print with its proof.")
  String proofElsewhere();

  @Message(
      "Every fact is a link of a hash chain, one chain a partition of the log. A checkpoint is the"
          + " signature (Ed25519) of the site under the newest link, and so under every link before"
          + " it. These checkpoints cover the facts of this dossier; they are enclosed in this PDF"
          + " as checkpoints.json, with their signatures.")
  String checkpoints();

  @Message("Signed checkpoints cover each of the {facts} facts of this dossier.")
  String covered(String facts);

  @Message(
      "No signed checkpoint covers the newest of these facts yet; which ones stands below. Print"
          + " this dossier again in a minute.")
  String notCovered();

  @Message("Partition {partition}")
  String partition(String partition);

  @Message(
      "Checkpoint {number} signs the chain up to link {sequence} (offset {offset}); signed on"
          + " {time}.")
  String checkpoint(String number, String sequence, String offset, String time);

  @Message("Facts of this dossier that it covers: {facts}.")
  String coversHere(String facts);

  @Message("No checkpoint covers the facts in this partition yet.")
  String noCheckpoint();

  @Message("Not covered by a checkpoint yet: {facts}.")
  String waiting(String facts);

  @Message(
      "Not in the hash chain: {facts}. They came before the chain began, or while this was printed.")
  String notChained(String facts);

  @Message("Hash of that link (SHA-256)")
  String link();

  @Message("Hash of the checkpoint before")
  String previous();

  @Message("To verify it without this site")
  String verifying();

  @Message(
      "Fetch the proof, once, as a person who may read the log; for an ancestor the same address"
          + " under its own kind and id:")
  String verifyProof();

  @Message(
      "Verify it on any machine without a connection. The folder holds the public keys of the site,"
          + " *.pub.pem, handed over by another way than this PDF. The proof holds the bytes of each"
          + " fact and the links up to a checkpoint:")
  String verifyKeys();

  @Message(
      "Who has the access file client.properties verifies the whole log against the checkpoints of"
          + " this PDF; that shows too whether the log was cut off or written anew since it was printed:")
  String verifyLog();

  @Message("NAME")
  String yourName();

  @Message("KEYS")
  String keyFolder();

  @Message(
      "Exit code: 0 as it was signed, 2 nothing is signed yet, 3 tampered with, 1 could not verify."
          + " What is false but was sealed as such, no proof shows.")
  String exitCodes();

  @Message("This print is no certificate and bears no signature of its own.")
  String noSignature();
}
