package org.kornspur.api.web.fieldbook;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.EvidenceDeadline;
import org.kornspur.api.readmodel.FloweringDue;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.readmodel.Worklist;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.PageFrame;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.LotStanding;

/** The crops of which evidence must be had this week, because they flower or will soon. */
@ApplicationScoped
public class DueCrops {
  private static final int DAYS = 7;
  private static final int MOST = 20;

  @Inject VisibleData data;
  @Inject FieldCrops crops;

  /**
   * A crop with what is to be done in it, soonest first.
   *
   * @param due what is missing and until when, in words
   */
  public record DueCrop(FieldCrop crop, String due) {}

  /** Those of a season; what flowered off is no work of this week. */
  List<DueCrop> thisWeek(int season, PageFrame frame, PageTexts texts) {
    LocalDate today = LocalDate.now(frame.form().zone());
    Map<Subject, List<Worklist.Owed>> byCrop =
        data.worklist(question(season), Integer.MAX_VALUE).owed().stream()
            .filter(owed -> owed.until().due().filter(due -> isThisWeek(due, today)).isPresent())
            .collect(
                Collectors.groupingBy(
                    owed -> owed.until().subject(), LinkedHashMap::new, Collectors.toList()));
    return byCrop.entrySet().stream()
        .limit(MOST)
        .map(one -> due(one.getKey(), one.getValue(), frame, texts))
        .toList();
  }

  static boolean isThisWeek(FloweringDue due, LocalDate today) {
    long left = due.daysLeft(today);
    return left >= 0 && left <= DAYS;
  }

  private DueCrop due(Subject crop, List<Worklist.Owed> owed, PageFrame frame, PageTexts texts) {
    LotStanding standing = data.read(owed.get(0).standing());
    return new DueCrop(
        crops.card(crop.id(), standing.getState()),
        owed.stream()
            .map(one -> words(one.until(), standing, frame, texts))
            .collect(Collectors.joining("; ")));
  }

  private static String words(
      EvidenceDeadline until, LotStanding standing, PageFrame frame, PageTexts texts) {
    FloweringDue due = until.due().orElseThrow();
    String gates =
        standing.getVerdicts().stream()
            .filter(verdict -> until.holds(verdict, standing))
            .map(verdict -> frame.trade().gate(verdict.getGate()))
            .distinct()
            .collect(Collectors.joining(", "));
    String key = due.beforeFlowering() ? "dueFrom" : "dueUntil";
    return texts.of(key, gates, frame.form().day(due.day()));
  }

  private static StandingQuery question(int season) {
    return new StandingQuery(
        EnumSet.of(Subject.Kind.CROP),
        Set.of(),
        Set.of(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(season),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        false,
        Optional.empty(),
        StandingQuery.Order.WORST,
        1,
        MOST);
  }
}
