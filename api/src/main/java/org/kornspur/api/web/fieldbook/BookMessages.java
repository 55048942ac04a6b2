package org.kornspur.api.web.fieldbook;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.PollenSourceKind;

/**
 * Texts of the field book; they stand in {@code messages/book_*.properties}. Those that begin with
 * {@code script} are shown by the scripts.
 */
@MessageBundle("book")
public interface BookMessages {

  @Message
  String formOf(BookForm form);

  @Message
  String roleOf(CropRole role);

  @Message
  String partOf(InspectedPart part);

  @Message
  String kindOf(PollenSourceKind kind);

  @Message
  String title();

  @Message
  String choose();

  @Message
  String season();

  @Message
  String idBegins();

  @Message
  String show();

  @Message
  String found(String n);

  @Message
  String noCrops();

  @Message
  String keepAll();

  @Message
  String keepWhy();

  @Message
  String keptMark();

  @Message
  String lastVisit(int number, String day);

  @Message
  String noVisit();

  @Message
  String flowering();

  @Message
  String hybrid();

  @Message
  String crop();

  @Message
  String seedOf();

  @Message
  String grower();

  @Message
  String owes();

  @Message
  String notMet();

  @Message
  String allGates();

  @Message
  String visits();

  @Message
  String visitLine(int number, String day, int stage);

  @Message
  String tasks();

  @Message
  String noTasks();

  @Message
  String toCrops();

  @Message
  String toCrop(String crop);

  @Message
  String recorded();

  @Message
  String outbox();

  @Message
  String outboxLink();

  @Message
  String outboxExplained();

  @Message
  String outboxWithoutScript();

  @Message
  String waitingTitle();

  @Message
  String sentTitle();

  @Message
  String sendNow();

  @Message
  String leave();

  @Message
  String stay();

  @Message
  String notKeptTitle();

  @Message
  String notKeptText();

  @Message
  String record();

  @Message
  String keepDraft();

  @Message
  String clear();

  @Message
  String optional();

  @Message
  String chooseOne();

  @Message
  String yes();

  @Message
  String no();

  @Message
  String notSaid();

  @Message
  String errorTitle();

  @Message
  String areaOrPlants();

  @Message
  String required();

  @Message
  String notANumber(String value);

  @Message
  String notWhole(String value);

  @Message
  String notATime(String value);

  @Message
  String notACorner(String value);

  @Message
  String tooSmall(String value, String limit);

  @Message
  String tooLarge(String value, String limit);

  @Message
  String moreThanWhole(String value, String whole, String limit);

  @Message
  String mend(String n);

  @Message
  String sectionVisit();

  @Message
  String sectionCounts();

  @Message
  String sectionOthers();

  @Message
  String sectionRecord();

  @Message
  String sectionBags();

  @Message
  String sectionSource();

  @Message
  String sectionSown(int n);

  @Message
  String sectionArea();

  @Message
  String sectionHarvest();

  @Message
  String happenedAt();

  @Message
  String sourceDocument();

  @Message
  String sourceDocumentHint();

  @Message
  String sourceDocumentPhone();

  @Message
  String visit();

  @Message
  String visitHint(int before);

  @Message
  String bbchStage();

  @Message
  String bbchStageHint();

  @Message
  String bbch51();

  @Message
  String bbch55();

  @Message
  String bbch59();

  @Message
  String bbch61();

  @Message
  String bbch65();

  @Message
  String bbch69();

  @Message
  String bbch75();

  @Message
  String bbch89();

  @Message
  String part();

  @Message
  String areaM2();

  @Message
  String areaM2Hint();

  @Message
  String plantsCounted();

  @Message
  String plantsHint();

  @Message
  String offTypePlants();

  @Message
  String plantsInReceptiveFlower();

  @Message
  String receptiveHint();

  @Message
  String sheddingPlants();

  @Message
  String sheddingHint();

  @Message
  String otherCerealPlants();

  @Message
  String hardToSeparatePlants();

  @Message
  String wildOatPlants();

  @Message
  String smutPlants();

  @Message
  String ergotBodies();

  @Message
  String plantsExamined();

  @Message
  String plantsShedding();

  @Message
  String baggedEars();

  @Message
  String baggedHint();

  @Message
  String baggedEarsWithSeed();

  @Message
  String sourceId();

  @Message
  String sourceIdHint();

  @Message
  String sourceKind();

  @Message
  String sourceYear();

  @Message
  String firstSeenOn();

  @Message
  String endedOn();

  @Message
  String endedOnHint();

  @Message
  String outline();

  @Message
  String outlineHint();

  @Message
  String cornerHere();

  @Message
  String sownLot();

  @Message
  String sownLotHint();

  @Message
  String sownMass();

  @Message
  String lotLeft(String seed, String left);

  @Message
  String areaHa();

  @Message
  String anotherLot();

  @Message
  String harvestLot();

  @Message
  String harvestLotHint();

  @Message
  String harvestMass();

  @Message
  String harvestMassHint();

  @Message
  String pollenParentRemoved();

  @Message
  String pollenParentRemovedHint();

  @Message
  String tally();

  @Message
  String tallyBy();

  @Message
  String byArea();

  @Message
  String byPlants();

  @Message
  String receptiveOnly();

  @Message
  String tapPlant();

  @Message
  String tapFemale();

  @Message
  String tapTen();

  @Message
  String tapTenFemales();

  @Message
  String tapArea();

  @Message
  String tapOffType();

  @Message
  String tapShedder();

  @Message
  String undo();

  @Message
  String plan();

  @Message
  String planExplained(int multiple);

  @Message
  String planSource();

  @Message
  String planMultiple();

  @Message
  String planTimes(int n);

  @Message
  String planChange();

  @Message
  String planLimit();

  @Message
  String planFixed();

  @Message
  String fixedPlan(String amount, String most, String producers, String consumers);

  @Message
  String planEnglish();

  @Message
  String planNone();

  @Message
  String sheddersThisVisit();

  @Message
  String sheddersAllVisits();

  @Message
  String sheddersAllChecks();

  @Message
  String offTypesIn(String part);

  @Message
  String plants(String n);

  @Message
  String decisionGoOn();

  @Message
  String decisionAccept();

  @Message
  String decisionReject();

  @Message
  String scriptWaiting(String n);

  @Message
  String scriptNothingWaiting();

  @Message
  String scriptNoNetwork();

  @Message
  String scriptSignIn();

  @Message
  String scriptOtherPerson(String person);

  @Message
  String scriptDraft(String time);

  @Message
  String scriptKept(String time);

  @Message
  String scriptNotKept();

  @Message
  String scriptKeepable(String n);

  @Message
  String scriptInsecure();

  @Message
  String scriptNoStorage();

  @Message
  String scriptFound(String bad, String units);

  @Message
  String scriptFoundBefore(String bad, String units);

  @Message
  String scriptIfNone(String units);

  @Message
  String scriptRejectAt(String bad);

  @Message
  String scriptTooLong();

  @Message
  String scriptStateWaiting(String time);

  @Message
  String scriptStateTried(String time, String next);

  @Message
  String scriptStateRefused();

  @Message
  String scriptStateForeign(String person);

  @Message
  String scriptStateSignIn();

  @Message
  String scriptSent(String time);

  @Message
  String scriptSentBefore(String time);

  @Message
  String scriptNothingSent();

  @Message
  String scriptMendIt();

  @Message
  String scriptDiscard();

  @Message
  String scriptDiscardSure(String title);

  @Message
  String scriptPosition();

  @Message
  String scriptNoPosition(String reason);

  @Message
  String scriptLeaving(String n);

  @Message
  String scriptUndone(String what);
}
