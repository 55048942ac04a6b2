package org.kornspur.api.page.audit;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;
import org.kornspur.processors.pedigree.LooseEnd;

/** Texts of the auditor's pages. */
@MessageBundle("trace")
public interface TraceMessages {

  @Message("Trace")
  String title();

  @Message("Label number, lot, crop or fact")
  String query();

  @Message(
      "As it stands on the bag or in the papers. Blanks and the case of a label do not matter.")
  String queryHint();

  @Message("Look up")
  String lookUp();

  @Message(
      "Nothing seen here bears “{text}”. Check the number: ids of lots, crops and facts are case-sensitive.")
  String nothing(String text);

  @Message("“{text}” may mean several things. Choose one:")
  String several(String text);

  @Message("label of a dispatch of {mass} to {customer} on {day}")
  String byLabel(String mass, String customer, String day);

  @Message(
      "lies between the first and the last label, {first} to {last}, of a dispatch of {mass} to"
          + " {customer} on {day}; it is not written down itself")
  String betweenLabels(String first, String last, String mass, String customer, String day);

  @Message("That dispatch was corrected or taken back.")
  String dispatchSuperseded();

  @Message("named by this fact")
  String byFact();

  @Message("the id itself")
  String byId();

  @Message("Trace of lot {id}")
  String traceOfLot(String id);

  @Message("Trace of crop {id}")
  String traceOfCrop(String id);

  @Message("Found by “{text}”:")
  String foundBy(String text);

  @Message("Run a recall drill")
  String drill();

  @Message("Dossier as PDF")
  String dossierPdf();

  @Message("History as EPCIS 2.0")
  String epcis();

  @Message("Page of this lot")
  String lotPage();

  @Message("Page of this crop")
  String cropPage();

  @Message("The way back")
  String back();

  @Message("The way forward")
  String forward();

  @Message("Every movement of seed into it and into what it came from, nearest first")
  String backCaption();

  @Message("Every movement of seed out of it and out of what it went into, nearest first")
  String forwardCaption();

  @Message("It came from nothing that is recorded.")
  String nothingBack();

  @Message("It went nowhere yet.")
  String nothingForward();

  @Message("Seen on the walk, crops, lots and customers: {subjects}, in {elapsed} ms.")
  String walked(String subjects, String elapsed);

  @Message("Complete, as far as facts have come in.")
  String complete();

  @Message("Incomplete")
  String incomplete();

  @Message("{shown} of {all} movements are shown; the interface gives all.")
  String cut(String shown, String all);

  @Message("Step")
  String step();

  @Message("From")
  String from();

  @Message("To")
  String to();

  @Message("Mass")
  String mass();

  @Message("By")
  String by();

  @Message("Day")
  String day();

  @Message("Standing")
  String standing();

  @Message("Fact")
  String fact();

  @Message("lot {id}")
  String lot(String id);

  @Message("crop {id}")
  String crop(String id);

  @Message("customer {id}")
  String customer(String id);

  @Message("At customers")
  String atCustomers();

  @Message("{kg} reached {count} customers.")
  String reached(String kg, String count);

  @Message("{kg} reached one customer.")
  String reachedOne(String kg);

  @Message("No seed of it has reached a customer.")
  String reachedNobody();

  @Message("Recall drill of lot {id}")
  String drillOfLot(String id);

  @Message("Recall drill of crop {id}")
  String drillOfCrop(String id);

  @Message("This drill is complete as far as facts have come in.")
  String drillComplete();

  @Message("This drill is incomplete. Do not rest on it alone.")
  String drillIncomplete();

  @Message("Walks and balance took {elapsed} ms.")
  String elapsed(String elapsed);

  @Message("Records not processed yet: {records}.")
  String lag(String records);

  @Message("unknown")
  String unknown();

  @Message("Unresolved links: {links}.")
  String unresolvedLinks(String links);

  @Message(
      "{#if held == '1'}1 refused input waits in the quarantine; a link may be in"
          + " it.{#else}{held} refused inputs wait in the quarantine; a link may be among them.{/if}")
  String heldInQuarantine(String held);

  @Message("As a table (CSV)")
  String csv();

  @Message("As PDF")
  String pdf();

  @Message("Customers")
  String customers();

  @Message("Who got how much")
  String customersCaption();

  @Message("Labels")
  String labels();

  @Message("Deliveries and label numbers")
  String deliveries();

  @Message(
      "Every delivery with its label numbers, as recorded; two numbers of one series are the first and the last (common practice, no source)")
  String deliveriesCaption();

  @Message("Customer")
  String customerColumn();

  @Message("Lot")
  String lotColumn();

  @Message("Mass balance")
  String balance();

  @Message("The masses add up within tolerance.")
  String balances();

  @Message("The masses do not add up.")
  String doesNotBalance();

  @Message("In = out + stock + loss, for this lot and all that it went into")
  String balanceCaption();

  @Message("In")
  String in();

  @Message("declared")
  String declared();

  @Message("harvested")
  String harvested();

  @Message("out of other lots")
  String fromOtherLots();

  @Message("Out")
  String out();

  @Message("to customers")
  String toCustomers();

  @Message("sown")
  String sown();

  @Message("into lots beyond the walk")
  String toOtherLots();

  @Message("Stock")
  String stock();

  @Message("as the books leave it; nobody counted")
  String bookStock();

  @Message(
      "counted for {counted} of {lots} {#if lots == '1'}lot{#else}lots{/if}, the others as the books leave them")
  String countedStock(String counted, String lots);

  @Message("Loss (screenings)")
  String loss();

  @Message("Difference")
  String difference();

  @Message("Tolerance: {percent} % of what came in, {allowed} ({source})")
  String tolerance(String percent, String allowed, String source);

  @Message("Account of each lot")
  String lots();

  @Message("Book stock")
  String bookStockColumn();

  @Message("Into lots")
  String intoLots();

  @Message("Counted in store, kg")
  String counted();

  @Message("Counted in store of lot {id}, kilograms")
  String countedOf(String id);

  @Message("Reckon again with what was counted")
  String reckon();

  @Message("beyond tolerance")
  String off();

  @Message("Conditionings")
  String conditionings();

  @Message("Screenings")
  String screenings();

  @Message("Where the walk ends")
  String looseEnds();

  @Message("Every place from which a walk cannot be followed on")
  String looseEndsCaption();

  @Message("Every link leads on or ends at declared seed and labelled bags.")
  String noLooseEnds();

  @Message("unresolved")
  String unresolved();

  @Message("open")
  String open();

  @Message
  String looseEnd(LooseEnd.Kind kind);

  @Message("What is missing")
  String missing();

  @Message("Crop or lot")
  String subject();

  @Message("Back to the trace")
  String toTrace();

  @Message("The whole way, and a recall drill")
  String wholeWay();

  @Message("All records as a spreadsheet")
  String records();
}
