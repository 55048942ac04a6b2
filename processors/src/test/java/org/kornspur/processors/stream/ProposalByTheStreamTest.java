package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.gates.Gates;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.plan.field.FieldProposal;
import org.kornspur.processors.plan.field.InventedGround;
import org.kornspur.processors.plan.field.KnownField;
import org.kornspur.processors.plan.field.PlannedCrop;
import org.kornspur.processors.plan.field.RyeStand;
import org.kornspur.processors.plan.field.SeasonFields;
import org.kornspur.processors.plan.field.SeasonTask;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * What is proposed is declared, and the ground and the gates of the stream find nothing too near
 * and no rye too short a time ago.
 */
class ProposalByTheStreamTest {
  private static final int YEAR = 2027;

  @Property(tries = 60)
  void noProposalIsRefusedOnceItIsDeclared(
      @ForAll @Size(min = 8, max = 14) List<@IntRange(min = 0, max = 9999) Integer> places,
      @ForAll boolean german) {
    String book = german ? "DE" : "EU";
    List<KnownField> fields = new ArrayList<>();
    List<RyeStand> known = new ArrayList<>();
    for (int i = 0; i < places.size(); i++) {
      double east = (places.get(i) % 100) * 40.0;
      double north = (places.get(i) / 100) * 40.0;
      if (i % 4 == 3) {
        known.add(InventedGround.seen("S" + i, YEAR - i % 3, east, north, 150));
      } else {
        fields.add(InventedGround.field("E" + i % 2, "F" + i, east, north, 100 + 10 * i));
      }
    }
    List<SeasonTask.Wanted> wanted = new ArrayList<>();
    for (int hybrid = 1; hybrid <= 3; hybrid++) {
      wanted.add(new SeasonTask.Wanted(InventedGround.singleCross(hybrid, YEAR, book), 2));
      wanted.add(new SeasonTask.Wanted(InventedGround.mixture(hybrid, YEAR, book), 5));
      wanted.add(new SeasonTask.Wanted(InventedGround.pollinator(hybrid, YEAR, book), 1));
    }
    SeasonFields found =
        FieldProposal.of(
            new SeasonTask(YEAR, wanted, fields, known, List.of(), Map.of(), Optional.empty()));
    assertAllStand(found, known);
    double placedHa = found.placed().stream().mapToDouble(one -> one.placement().areaHa()).sum();
    assertThat(placedHa + found.unplacedHa()).isCloseTo(24, within(0.2));
  }

  private static void assertAllStand(SeasonFields found, List<RyeStand> known) {
    List<FieldCropDeclared> declared = new ArrayList<>();
    for (SeasonFields.Placed placed : found.placed()) {
      declared.add(declared("crop-" + declared.size(), placed));
    }
    List<Plot> plots = new ArrayList<>(known.stream().map(RyeStand::plot).toList());
    declared.forEach(crop -> plots.add(plot(crop)));
    IsolationCellIndex ground = IsolationCellIndex.of(YEAR, plots);
    for (FieldCropDeclared crop : declared) {
      Subject subject = Subject.crop(crop.getCropId());
      assertThat(ground.sameGround(subject))
          .allMatch(other -> other.commonHa() < 0.05 * other.areaHa());
      Dossier dossier =
          new Dossier(
              subject,
              List.of(new Entry(crop, Optional.empty())),
              List.of(
                  new Report.FromGround(
                      "cell:2027:1:1",
                      subject,
                      ground.near(subject),
                      ground.earlier(subject),
                      List.of())));
      assertThat(
              Gates.all().stream()
                  .filter(
                      rule ->
                          rule.gate() == Gate.ISOLATION || rule.gate() == Gate.PREVIOUS_CROPPING)
                  .flatMap(
                      rule ->
                          rule
                              .judge(dossier, found.placed().get(0).placement().crop().rulebook())
                              .stream()))
          .noneMatch(Verdict.NotMet.class::isInstance);
    }
  }

  private static FieldCropDeclared declared(String id, SeasonFields.Placed placed) {
    PlannedCrop crop = placed.placement().crop();
    return FieldCropDeclared.newBuilder((FieldCropDeclared) Facts.crop(id, crop.role()).fact())
        .setSeedComponentId(crop.seedId())
        .setPollenComponentId(crop.pollenId())
        .setCropYear(YEAR)
        .setCategory(crop.category())
        .setRulebookId(crop.rulebook().id())
        .setFloweringFrom(null)
        .setFloweringTo(null)
        .setYearsWithoutRye(null)
        .setOutline(
            placed.placement().field().outline().corners().stream()
                .map(corner -> new GeoPoint(corner.lon(), corner.lat()))
                .toList())
        .build();
  }

  private static Plot plot(FieldCropDeclared crop) {
    return new Plot(
        Subject.crop(crop.getCropId()),
        crop.getCropYear(),
        crop.getOutline().stream().map(GeoPosition::of).toList(),
        Optional.of(crop.getPollenComponentId()),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        crop.getHeader().getFactId(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }
}
