package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Correction;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.FolderLoad;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/**
 * The invented enterprise, from its files through the loader, the real topology, the real rulebooks
 * and gates, to standings: every story comes out as its page says, and in whatever order.
 */
class DemoStandingsTest {
  private static final Path DEMO = Path.of("..", "demo-events");
  private static final Pattern PROMISE =
      Pattern.compile("- `(\\w+:[^`]+)` (FIT|NOT_FIT|EVIDENCE_OWED)");

  private static final Map<SpecificRecord, SpecificRecord> SIGNED = new ConcurrentHashMap<>();

  /** Standings of the whole demo in the order of its files; judged once, for it takes a while. */
  private static Map<String, LotStanding> inOrder;

  static synchronized Map<String, LotStanding> inOrder() throws IOException {
    if (inOrder == null) {
      inOrder = Map.copyOf(standingsOf(facts()));
    }
    return inOrder;
  }

  @Test
  void everyStoryComesOutAsItsPageSays() throws IOException {
    Map<String, StandingState> promised = promises();
    assertThat(promised).hasSizeGreaterThan(30);

    Map<String, StandingState> found = states(inOrder());

    assertThat(found).containsAllEntriesOf(promised);
  }

  @Test
  void whatNoStoryTellsOfIsFit() throws IOException {
    Set<String> told = promises().keySet();

    Map<String, StandingState> others = new TreeMap<>(states(inOrder()));
    others.keySet().removeIf(subject -> told.stream().anyMatch(subject::startsWith));

    assertThat(others).hasSizeGreaterThan(500);
    assertThat(others.entrySet())
        .filteredOn(standing -> standing.getValue() != StandingState.FIT)
        .isEmpty();
  }

  @Test
  void theOrderOfAllFactsMakesNoDifference() throws IOException {
    List<SpecificRecord> facts = facts();
    Map<String, LotStanding> inOrder = inOrder();

    List<SpecificRecord> shuffled = new ArrayList<>(facts);
    Collections.shuffle(shuffled, new Random(20_260_701));

    assertThat(standingsOf(shuffled)).isEqualTo(inOrder);
  }

  @Test
  void withoutPostControlOfItsBasicSeedCertifiedSeedWaitsAndTheBasicSeedDoesNot()
      throws IOException {
    List<SpecificRecord> facts = facts();
    Map<String, StandingState> all = states(inOrder());
    facts.removeIf(PostControlResult.class::isInstance);

    Map<String, LotStanding> standings = standingsOf(facts);

    assertThat(standings.get("lot:L25-01-1").getState()).isEqualTo(StandingState.EVIDENCE_OWED);
    assertThat(standings.get("lot:L25-01-1").getInherited())
        .extracting(InheritedTrouble::getGate)
        .containsOnly("POST_CONTROL_OF_BASIC_SEED");
    assertThat(standings.values())
        .filteredOn(standing -> standing.getMaterial().getCategory().equals("BASIC"))
        .filteredOn(standing -> all.get(standing.getSubject()) == StandingState.FIT)
        .allSatisfy(standing -> assertThat(standing.getState()).isEqualTo(StandingState.FIT));
  }

  @Test
  void eachSaysWhatLeftForCustomersAndWhenItFlowers() throws IOException {
    List<SpecificRecord> facts = facts();
    Set<String> superseded = superseded(facts);
    Map<String, Double> dispatchedKg = new TreeMap<>();
    Map<String, FieldCropDeclared> crops = new TreeMap<>();
    for (SpecificRecord fact : facts) {
      if (superseded.contains(FactType.headerOf(fact).getFactId())) {
        continue;
      }
      if (fact instanceof Dispatch dispatch) {
        dispatchedKg.merge("lot:" + dispatch.getLotId(), dispatch.getMassKg(), Double::sum);
      } else if (fact instanceof FieldCropDeclared crop) {
        crops.put("crop:" + crop.getCropId(), crop);
      }
    }

    Map<String, LotStanding> standings = inOrder();

    assertThat(dispatchedKg).hasSizeGreaterThan(10);
    assertThat(crops).hasSizeGreaterThan(10);
    assertThat(standings.values())
        .allSatisfy(
            standing -> {
              Optional<FieldCropDeclared> crop =
                  Optional.ofNullable(crops.get(standing.getSubject()));
              assertThat(standing.getCustomersKg())
                  .isCloseTo(dispatchedKg.getOrDefault(standing.getSubject(), 0.0), within(1e-6));
              assertThat(Optional.ofNullable(standing.getFloweringFrom()))
                  .isEqualTo(crop.map(FieldCropDeclared::getFloweringFrom));
              assertThat(Optional.ofNullable(standing.getFloweringTo()))
                  .isEqualTo(crop.map(FieldCropDeclared::getFloweringTo));
            });
  }

  private static Set<String> superseded(List<SpecificRecord> facts) {
    return facts.stream()
        .flatMap(
            fact ->
                fact instanceof Withdrawal withdrawal
                    ? Stream.of(withdrawal.getWithdrawnFactId())
                    : Optional.ofNullable(FactType.headerOf(fact).getCorrection())
                        .map(Correction::getSupersedes)
                        .stream())
        .collect(Collectors.toSet());
  }

  /** Files that somebody else's program writes straight to the topic. */
  @Test
  void correctionsFromAnUnknownSenderMakeNoStandingBetter() throws IOException {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      topology.acceptAsSent(facts().toArray(SpecificRecord[]::new));
      Map<String, StandingState> states = states(topology.standings());

      assertThat(states).containsEntry("lot:R25-S06", StandingState.EVIDENCE_OWED);
      assertThat(states).containsEntry("crop:C26-S12", StandingState.NOT_FIT);
      promises()
          .forEach(
              (subject, promised) -> {
                if (promised != StandingState.FIT) {
                  assertThat(states.get(subject)).as(subject).isNotEqualTo(StandingState.FIT);
                }
              });
    }
  }

  /**
   * All facts wait before the first is processed. Measured with the release that judged a dossier
   * for each fact and each report: 3.9 standings a fact.
   */
  @Test
  void loadedAtOnceTheDemoIsJudgedHardlyMoreThanOnceASubject() throws IOException {
    List<SpecificRecord> facts = facts().stream().map(DemoStandingsTest::signed).toList();
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      topology.acceptAtOnce(facts);
      int judged = topology.newStandings().size();
      int subjects = topology.standings().size();
      System.out.printf(
          "MEASURED %d standings of %d subjects were written for %d facts, %.2f a fact%n",
          judged, subjects, facts.size(), judged / (double) facts.size());

      assertThat(topology.standings()).isEqualTo(inOrder());
      assertThat(judged).isLessThan(subjects * 3 / 2);
      assertThat(judged / (double) facts.size()).isLessThan(0.35);
    }
  }

  /** As quality brings it through the interface; signed once, for that takes a while. */
  private static SpecificRecord signed(SpecificRecord fact) {
    return SIGNED.computeIfAbsent(
        fact, unsigned -> DrivenTopology.by(DrivenTopology.QUALITY, unsigned));
  }

  private static Map<String, LotStanding> standingsOf(List<SpecificRecord> facts) {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      topology.acceptAsSent(
          facts.stream().map(DemoStandingsTest::signed).toArray(SpecificRecord[]::new));
      assertThat(topology.quarantine()).isEmpty();
      return topology.standings();
    }
  }

  private static Map<String, StandingState> states(Map<String, LotStanding> standings) {
    return standings.entrySet().stream()
        .collect(
            Collectors.toMap(
                Map.Entry::getKey,
                entry -> entry.getValue().getState(),
                (a, b) -> a,
                TreeMap::new));
  }

  private static Map<String, StandingState> promises() throws IOException {
    Map<String, StandingState> promises = new TreeMap<>();
    Matcher promise = PROMISE.matcher(Files.readString(DEMO.resolve("ABOUT.md")));
    while (promise.find()) {
      promises.put(promise.group(1), StandingState.valueOf(promise.group(2)));
    }
    return promises;
  }

  static List<SpecificRecord> facts() throws IOException {
    List<SpecificRecord> facts = new ArrayList<>();
    FolderLoad.load(
        DEMO,
        Clock.systemUTC(),
        new FactSink() {
          @Override
          public void accept(SpecificRecord fact) {
            facts.add(fact);
          }

          @Override
          public void refuse(QuarantineEntry entry) {
            // the broken files are looked at where files are read
          }
        },
        LoadProgress.SILENT);
    assertThat(facts).hasSizeGreaterThan(2_000);
    return facts;
  }
}
