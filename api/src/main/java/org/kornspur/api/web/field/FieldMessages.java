package org.kornspur.api.web.field;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.PollenSourceKind;

/** Texts of the page of a seed crop. */
@MessageBundle("field")
public interface FieldMessages {

  @Message
  String declared();

  @Message
  String fieldId();

  @Message
  String pollen();

  @Message
  String role();

  @Message
  String cropRole(CropRole role);

  @Message
  String area();

  @Message
  String hectares(String hectares);

  @Message
  String shield();

  @Message
  String yes();

  @Message
  String no();

  @Message
  String notDeclared();

  @Message
  String map();

  @Message
  String mapTitle(String id);

  @Message
  String noOutline();

  @Message
  String noSources(String reach);

  @Message
  String nearest(String count, String reach, String letter, String distance);

  @Message
  String onlyOne(String reach, String letter, String distance);

  @Message
  String required(String distance, String source);

  @Message
  String noneRequired();

  @Message
  String legendField();

  @Message
  String legendZone();

  @Message
  String legendCounts();

  @Message
  String legendApart();

  @Message
  String legendLine();

  @Message
  String northMark();

  @Message
  String metres(String metres);

  @Message
  String sources();

  @Message
  String letter();

  @Message
  String source();

  @Message
  String kind(PollenSourceKind kind);

  @Message
  String otherCrop();

  @Message
  String distance();

  @Message
  String room();

  @Message
  String meeting();

  @Message
  String tooNear();

  @Message
  String notConfirmed();

  @Message
  String farEnough();

  @Message
  String apart();

  @Message
  String fact();

  @Message
  String together(String from, String to, String days);

  @Message
  String togetherOneDay(String day);

  @Message
  String assumed();

  @Message
  String apartFrom(String ends, String begins);

  @Message
  String flowering();

  @Message
  String floweringTitle();

  @Message
  String noDays();

  @Message
  String theCrop();

  @Message
  String fromTo(String from, String to);

  @Message
  String fromOn(String from);

  @Message
  String upTo(String to);

  @Message
  String unknownDays();

  @Message
  String legendTogether();

  @Message
  String legendOpen();

  @Message
  String legendCrop();

  @Message
  String sheds();

  @Message
  String visits();

  @Message
  String noVisits();

  @Message
  String visitsCaption();

  @Message
  String day();

  @Message
  String visit();

  @Message
  String part();

  @Message
  String inspected(InspectedPart part);

  @Message
  String bbch();

  @Message
  String lookedAt();

  @Message
  String plants(String plants);

  @Message
  String squareMetres(String area);

  @Message
  String ears(String ears);

  @Message
  String offTypes();

  @Message
  String shedding();

  @Message
  String sheddingOf(String shedding, String receptive);

  @Message
  String seedOf(String seed, String ears);

  @Message
  String by();

  @Message
  String check();

  @Message
  String superseded(String reason);

  @Message
  String curves();

  @Message
  String curvesIntro(String alpha, String beta, String multiple);

  @Message
  String noCurves();

  @Message
  String curveTitle(String what, String part);

  @Message
  String plan(String examined, String unit, String most);

  @Message
  String observed(String bad, String units, String value, String lower, String upper);

  @Message
  String notCounted();

  @Message
  String axisShare();

  @Message
  String axisArea();

  @Message
  String axisAcceptance();

  @Message
  String limit();

  @Message
  String tooBad();

  @Message
  String counted();

  @Message
  String columnShare();

  @Message
  String columnArea();

  @Message
  String columnAccepted();

  @Message
  String inNumbers();

  @Message
  String result();

  @Message
  String trace();
}
