package org.kornspur.api.page.field;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.PollenSourceKind;

/** Texts of the page of a seed crop. */
@MessageBundle("field")
public interface FieldMessages {

  @Message("What is grown here")
  String declared();

  @Message("Field")
  String fieldId();

  @Message("Wanted pollen")
  String pollen();

  @Message("Role in the scheme")
  String role();

  @Message
  String cropRole(CropRole role);

  @Message("Area")
  String area();

  @Message("{hectares} ha")
  String hectares(String hectares);

  @Message("Shield against pollen accepted by the authority")
  String shield();

  @Message("yes")
  String yes();

  @Message("no")
  String no();

  @Message("This crop is not declared yet, so there is nothing to draw. Send its declaration.")
  String notDeclared();

  @Message("The field and the ground around it")
  String map();

  @Message("Map of crop {id}, north up")
  String mapTitle(String id);

  @Message("The outline of the field cannot be drawn. Correct the corners in its declaration.")
  String noOutline();

  @Message("No foreign pollen is known within {reach} m of the field.")
  String noSources(String reach);

  @Message(
      "{count} sources of foreign pollen are known within {reach} m. The nearest, {letter}, lies"
          + " {distance} m away.")
  String nearest(String count, String reach, String letter, String distance);

  @Message(
      "One source of foreign pollen is known within {reach} m. It lies {distance} m away and is"
          + " called {letter} here.")
  String onlyOne(String reach, String letter, String distance);

  @Message("{distance} m are asked for: {source}.")
  String required(String distance, String source);

  @Message("The rulebook asks for no distance that could be drawn.")
  String noneRequired();

  @Message("outline of the field")
  String legendField();

  @Message("isolation zone: the ground within the distance that is asked for")
  String legendZone();

  @Message("source that counts")
  String legendCounts();

  @Message("source that does not count, for it does not flower with the crop")
  String legendApart();

  @Message("shortest way, with its length")
  String legendLine();

  @Message("N")
  String northMark();

  @Message("{metres} m")
  String metres(String metres);

  @Message("Sources of foreign pollen")
  String sources();

  @Message("Called")
  String letter();

  @Message("Source")
  String source();

  @Message
  String kind(PollenSourceKind kind);

  @Message("another seed crop")
  String otherCrop();

  @Message("Distance, m")
  String distance();

  @Message("Room to the distance asked for, m")
  String room();

  @Message("Flowers with the crop")
  String meeting();

  @Message("too near")
  String tooNear();

  @Message("reported by a grower, not confirmed")
  String notConfirmed();

  @Message("far enough")
  String farEnough();

  @Message("does not count")
  String apart();

  @Message("Fact")
  String fact();

  @Message("together from {from} to {to}, {days} days")
  String together(String from, String to, String days);

  @Message("together on {day}, one day")
  String togetherOneDay(String day);

  @Message("taken to flower together, for days are unknown; report them")
  String assumed();

  @Message("apart: one ends on {ends}, the other begins on {begins}")
  String apartFrom(String ends, String begins);

  @Message("Flowering")
  String flowering();

  @Message("Days on which the crop flowers and its neighbours shed pollen")
  String floweringTitle();

  @Message("No day of flowering is known of the crop or of any source. Report the days.")
  String noDays();

  @Message("the crop")
  String theCrop();

  @Message("{from} to {to}")
  String fromTo(String from, String to);

  @Message("from {from}, end unknown")
  String fromOn(String from);

  @Message("to {to}, beginning unknown")
  String upTo(String to);

  @Message("days unknown")
  String unknownDays();

  @Message("hatched: days on which source and crop flower together, or may")
  String legendTogether();

  @Message("open end: day unknown")
  String legendOpen();

  @Message("between the dashed lines: flowering of the crop")
  String legendCrop();

  @Message("Sheds")
  String sheds();

  @Message("Visits and counts")
  String visits();

  @Message("No visit is recorded.")
  String noVisits();

  @Message("Every visit and check, the latest last")
  String visitsCaption();

  @Message("Day")
  String day();

  @Message("Visit")
  String visit();

  @Message("Part")
  String part();

  @Message
  String inspected(InspectedPart part);

  @Message("BBCH")
  String bbch();

  @Message("Looked at")
  String lookedAt();

  @Message("{plants} {#if plants == '1'}plant{#else}plants{/if}")
  String plants(String plants);

  @Message("{area} m²")
  String squareMetres(String area);

  @Message("{ears} bagged {#if ears == '1'}ear{#else}ears{/if}")
  String ears(String ears);

  @Message("Off-types")
  String offTypes();

  @Message("Shedding")
  String shedding();

  @Message("{shedding} of {receptive} in flower")
  String sheddingOf(String shedding, String receptive);

  @Message("{seed} {#if seed == '1'}ear{#else}ears{/if} with seed of {ears}")
  String seedOf(String seed, String ears);

  @Message("Person or device")
  String by();

  @Message("check of sterility")
  String check();

  @Message("does not count: {reason}")
  String superseded(String reason);

  @Message("Acceptance curves")
  String curves();

  @Message(
      "How often a count of fixed size accepts a crop, by the crop's true share of bad plants. The"
          + " plan is the smallest that refuses at most {alpha} of crops that are just at the limit"
          + " and accepts at most {beta} of those that are {multiple} times as bad. Exact binomial."
          + " Advice, not a gate: the law holds the count itself against its limit.")
  String curvesIntro(String alpha, String beta, String multiple);

  @Message("The rulebook limits nothing here that is counted plant by plant or by area.")
  String noCurves();

  @Message("Acceptance curve: {what}, {part}")
  String curveTitle(String what, String part);

  @Message("Plan: look at {examined} ({unit}), accept with at most {most} bad.")
  String plan(String examined, String unit, String most);

  @Message(
      "Counted so far: {bad} of {units}, that is {value}; exact interval {lower} to {upper} at 95"
          + " %.")
  String observed(String bad, String units, String value, String lower, String upper);

  @Message("Nothing is counted yet.")
  String notCounted();

  @Message("True share of bad plants, in 100")
  String axisShare();

  @Message("True number of bad plants per m²")
  String axisArea();

  @Message("Probability of acceptance")
  String axisAcceptance();

  @Message("limit")
  String limit();

  @Message("too bad")
  String tooBad();

  @Message("counted, with exact interval")
  String counted();

  @Message("True share, in 100 plants")
  String columnShare();

  @Message("True number per m²")
  String columnArea();

  @Message("Accepted")
  String columnAccepted();

  @Message("The curve in numbers")
  String inNumbers();

  @Message("Result")
  String result();

  @Message("Trace of this crop")
  String trace();
}
