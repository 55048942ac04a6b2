package org.kornspur.api.query.recall;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;
import org.kornspur.processors.recall.LooseEnd;

/** Texts of the auditor's pages. */
@MessageBundle("trace")
public interface TraceMessages {

  @Message
  String title();

  @Message
  String query();

  @Message
  String queryHint();

  @Message
  String lookUp();

  @Message
  String nothing(String text);

  @Message
  String several(String text);

  @Message
  String byLabel(String mass, String customer, String day);

  @Message
  String betweenLabels(String first, String last, String mass, String customer, String day);

  @Message
  String dispatchSuperseded();

  @Message
  String byFact();

  @Message
  String byId();

  @Message
  String traceOfLot(String id);

  @Message
  String traceOfCrop(String id);

  @Message
  String foundBy(String text);

  @Message
  String drill();

  @Message
  String dossierPdf();

  @Message
  String epcis();

  @Message
  String lotPage();

  @Message
  String cropPage();

  @Message
  String back();

  @Message
  String forward();

  @Message
  String backCaption();

  @Message
  String forwardCaption();

  @Message
  String nothingBack();

  @Message
  String nothingForward();

  @Message
  String walked(String subjects, String elapsed);

  @Message
  String complete();

  @Message
  String incomplete();

  @Message
  String cut(String shown, String all);

  @Message
  String step();

  @Message
  String from();

  @Message
  String to();

  @Message
  String mass();

  @Message
  String by();

  @Message
  String day();

  @Message
  String standing();

  @Message
  String fact();

  @Message
  String lot(String id);

  @Message
  String crop(String id);

  @Message
  String customer(String id);

  @Message
  String atCustomers();

  @Message
  String reached(String kg, String count);

  @Message
  String reachedOne(String kg);

  @Message
  String reachedNobody();

  @Message
  String drillOfLot(String id);

  @Message
  String drillOfCrop(String id);

  @Message
  String drillComplete();

  @Message
  String drillIncomplete();

  @Message
  String elapsed(String elapsed);

  @Message
  String lag(String records);

  @Message
  String unknown();

  @Message
  String unresolvedLinks(String links);

  @Message
  String heldInQuarantine(String held);

  @Message
  String csv();

  @Message
  String pdf();

  @Message
  String customers();

  @Message
  String customersCaption();

  @Message
  String labels();

  @Message
  String deliveries();

  @Message
  String deliveriesCaption();

  @Message
  String customerColumn();

  @Message
  String lotColumn();

  @Message
  String balance();

  @Message
  String balances();

  @Message
  String doesNotBalance();

  @Message
  String balanceCaption();

  @Message
  String in();

  @Message
  String declared();

  @Message
  String harvested();

  @Message
  String fromOtherLots();

  @Message
  String out();

  @Message
  String toCustomers();

  @Message
  String sown();

  @Message
  String toOtherLots();

  @Message
  String stock();

  @Message
  String bookStock();

  @Message
  String countedStock(String counted, String lots);

  @Message
  String loss();

  @Message
  String difference();

  @Message
  String tolerance(String percent, String allowed, String source);

  @Message
  String lots();

  @Message
  String bookStockColumn();

  @Message
  String intoLots();

  @Message
  String counted();

  @Message
  String countedOf(String id);

  @Message
  String calculateAgain();

  @Message
  String off();

  @Message
  String conditionings();

  @Message
  String unrecordedLoss(String mass);

  @Message
  String screenings();

  @Message
  String dryingLoss();

  @Message
  String unrecorded();

  @Message
  String looseEnds();

  @Message
  String looseEndsCaption();

  @Message
  String noLooseEnds();

  @Message
  String unresolved();

  @Message
  String open();

  @Message
  String looseEnd(LooseEnd.Kind kind);

  @Message
  String missing();

  @Message
  String subject();

  @Message
  String toTrace();

  @Message
  String wholeWay();

  @Message
  String records();
}
