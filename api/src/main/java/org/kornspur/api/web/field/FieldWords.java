package org.kornspur.api.web.field;

import java.math.BigDecimal;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import org.kornspur.api.text.DistanceFormat;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.api.web.field.CropSurroundings.Source;
import org.kornspur.processors.advice.InspectionAdvice.Count;
import org.kornspur.processors.ground.FloweringOverlap;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.standards.Quantity;

/**
 * What the page of a crop says in sentences, in one language.
 *
 * @param words limits and their sources
 */
public record FieldWords(PageTexts texts, ReaderWords words) {
  private static final int LONGEST_ON_A_DRAWING = 26;

  /** What was counted: the part of the crop, and the visits. */
  public String about(Count count) {
    return words.plain(count.about());
  }

  public String unit(Count count) {
    return words.plain(count.unit());
  }

  /** How many sources there are and how far the nearest lies. */
  public String summary(CropSurroundings ground, double reachM) {
    String reach = form().number(reachM);
    if (ground.sources().isEmpty()) {
      return texts.of("noSources", reach);
    }
    Source nearest = ground.sources().get(0);
    String distance = distance(nearest.neighbour().distanceM());
    return ground.sources().size() == 1
        ? texts.of("onlyOne", reach, nearest.letter(), distance)
        : texts.of(
            "nearest", form().count(ground.sources().size()), reach, nearest.letter(), distance);
  }

  /** Metres to a decimal or more. */
  public String distance(double distanceM) {
    return form().distance(distanceM);
  }

  /** Metres that a source lies beyond the distance asked for; negative where it is too near. */
  public String room(Source source) {
    return source
        .asked()
        .map(asked -> metres(beyond(source.neighbour().distanceM(), asked.limit().value())))
        .orElse("");
  }

  /** Metres that a distance lacks. */
  public String shortBy(double distanceM, double askedM) {
    return metres(beyond(distanceM, askedM).negate());
  }

  /** By the distance as it is shown. */
  private static BigDecimal beyond(double distanceM, double askedM) {
    return DistanceFormat.rounded(distanceM).subtract(BigDecimal.valueOf(askedM));
  }

  private String metres(BigDecimal metres) {
    return form().number(metres.doubleValue(), metres.scale());
  }

  /** Whether and when a source flowers with the crop. */
  public String meeting(FloweringOverlap meeting) {
    if (meeting instanceof FloweringOverlap.Together together) {
      return together.days() == 1
          ? texts.of("togetherOneDay", form().day(together.from()))
          : texts.of(
              "together",
              form().day(together.from()),
              form().day(together.to()),
              form().count(together.days()));
    }
    if (meeting instanceof FloweringOverlap.Apart apart) {
      return texts.of(
          "apartFrom", form().day(apart.earlierEnds()), form().day(apart.laterBegins()));
    }
    return texts.of("assumed");
  }

  /** A stretch of days, as far as it is known. */
  public String window(FloweringWindow window) {
    if (window.from().isPresent() && window.to().isPresent()) {
      return texts.of("fromTo", form().day(window.from().get()), form().day(window.to().get()));
    }
    return window
        .from()
        .map(from -> texts.of("fromOn", form().day(from)))
        .or(() -> window.to().map(to -> texts.of("upTo", form().day(to))))
        .orElse(texts.of("unknownDays"));
  }

  /** The crop, as part of an address. */
  public String encoded(String subject) {
    return URLEncoder.encode(subject, StandardCharsets.UTF_8);
  }

  /** Name of a row of the chart of flowering, short enough for it. */
  public String row(FloweringChart.Row row) {
    return row.source()
        .map(source -> source.letter() + " " + shortened(source.neighbour().source().id()))
        .orElse(texts.of("theCrop"));
  }

  /** Day and month, as on an axis. */
  public String axisDay(LocalDate day) {
    String pattern =
        switch (form().language()) {
          case ENGLISH -> "d MMM";
          case GERMAN -> "d. MMM";
        };
    return DateTimeFormatter.ofPattern(pattern, form().language().locale()).format(day);
  }

  /** What a count is held against, by the name of its gate. */
  public String counted(Count count) {
    Quantity quantity = count.limit().quantity();
    String gate =
        switch (quantity) {
          case SHEDDING_FEMALES, SHEDDING_FEMALES_ALL_VISITS -> "SHEDDING_FEMALES";
          case OFF_TYPES_BY_AREA, OFF_TYPES_BY_PLANTS -> "OFF_TYPES";
          default -> quantity.name();
        };
    return DomainTerms.in(form().language()).gate(gate);
  }

  /** A value of the axis of a curve with its unit. */
  public String share(AcceptanceCurve curve, double value) {
    return curve.byArea()
        ? form().measure(value, "plants/m2")
        : form().measure(value / 100, "plants/plant");
  }

  private LocalFormat form() {
    return words.reader().form();
  }

  private static String shortened(String id) {
    return id.length() <= LONGEST_ON_A_DRAWING
        ? id
        : id.substring(0, LONGEST_ON_A_DRAWING - 1) + "…";
  }
}
