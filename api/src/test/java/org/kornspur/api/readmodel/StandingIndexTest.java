package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.kornspur.api.readmodel.StandingQuery.Order;
import org.kornspur.api.text.EnglishWords;
import org.kornspur.api.text.FirstReason;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

class StandingIndexTest {
  private final StandingIndex index = new StandingIndex();

  @Test
  void theWorstComesFirstAndWithinAStateTheIdDecides() {
    put(lot("L-3", StandingState.FIT));
    put(lot("L-2", StandingState.EVIDENCE_OWED));
    put(lot("L-4", StandingState.NOT_FIT));
    put(lot("L-1", StandingState.NOT_FIT));

    assertThat(ids(query())).containsExactly("L-1", "L-4", "L-2", "L-3");
    assertThat(ids(new Query().order(Order.ID))).containsExactly("L-1", "L-2", "L-3", "L-4");
  }

  @Test
  void mostInStoreOrJudgedLastComesFirstAndAmongEqualsTheIdDecides() {
    Instant day = Instant.parse("2026-08-03T08:00:00Z");
    put("L-1", 500, 400, day);
    put("L-4", 300, 0, day.plusSeconds(2));
    put("L-2", 200, 800, day.plusSeconds(1));
    put("L-3", 900, 600, day.plusSeconds(2));

    assertThat(ids(new Query().order(Order.STORE))).containsExactly("L-3", "L-4", "L-1", "L-2");
    assertThat(ids(new Query().order(Order.CHANGED))).containsExactly("L-3", "L-4", "L-2", "L-1");
  }

  @Test
  void aNewStandingTakesThePlaceOfTheOldOne() {
    assertThat(put(lot("L-1", StandingState.FIT))).isEmpty();
    Optional<StandingIndexRow> before = put(lot("L-1", StandingState.NOT_FIT));

    assertThat(before).map(StandingIndexRow::state).contains(StandingState.FIT);
    assertThat(index.size()).isEqualTo(1);
    assertThat(ids(new Query().states(StandingState.FIT))).isEmpty();
    assertThat(ids(new Query().states(StandingState.NOT_FIT))).containsExactly("L-1");
  }

  @Test
  void whatWasTakenOutIsGoneFromEveryList() {
    put(lot("L-1", StandingState.FIT));
    index.remove(Subject.lot("L-1"));
    index.remove(Subject.lot("L-1"));

    assertThat(ids(query())).isEmpty();
    assertThat(index.row(Subject.lot("L-1"))).isEmpty();
    assertThat(index.bytes(Subject.lot("L-1"))).isEmpty();
  }

  @Test
  void aCropAndALotOfOneIdAreTwo() {
    put(lot("X-1", StandingState.FIT));
    put(crop("X-1", StandingState.FIT));

    assertThat(index.size()).isEqualTo(2);
    assertThat(ids(query())).containsExactly("X-1");
    assertThat(ids(new Query().kinds(Subject.Kind.LOT, Subject.Kind.CROP))).hasSize(2);
  }

  @Test
  void pagesOverlapNowhereAndLeaveNothingOut() {
    List<StandingState> states =
        List.of(StandingState.FIT, StandingState.NOT_FIT, StandingState.EVIDENCE_OWED);
    for (int number = 0; number < 103; number++) {
      put(lot("L-%03d".formatted(number), states.get(number % 3)));
    }
    List<String> whole = ids(new Query().page(1, 1000));
    List<String> paged = new ArrayList<>();
    for (int page = 1; page <= 11; page++) {
      ResultPage<StandingIndexRow> slice =
          index.find(new Query().page(page, 10).build(), row -> true);
      assertThat(slice.total()).isEqualTo(103);
      slice.items().forEach(row -> paged.add(row.subject().id()));
    }

    assertThat(paged).isEqualTo(whole).doesNotHaveDuplicates().hasSize(103);
    assertThat(ids(new Query().page(12, 10))).isEmpty();
    assertThat(ids(new Query().page(1_000_000, 1000))).isEmpty();
  }

  @Test
  void filtersNarrowByMaterialHolderAndGates() {
    put(
        standing("lot:A-1", StandingState.NOT_FIT)
            .setMaterial(material("H-1", "C-1", "BASIC", 2023, "EU"))
            .setHolder("ENT-1")
            .setVerdicts(List.of(verdict("GERMINATION", VerdictState.NOT_MET)))
            .build());
    put(
        standing("lot:B-1", StandingState.NOT_FIT)
            .setMaterial(material("H-2", "H-2", "CERTIFIED", 2024, "OECD"))
            .setInherited(List.of(trouble("POST_CONTROL", "CONDEMNS"), trouble("ERGOT", "OWED")))
            .build());
    put(lot("C-1", StandingState.EVIDENCE_OWED));

    assertThat(ids(new Query().hybrid("H-2"))).containsExactly("B-1");
    assertThat(ids(new Query().seed("C-1"))).containsExactly("A-1");
    assertThat(ids(new Query().category("CERTIFIED"))).containsExactly("B-1");
    assertThat(ids(new Query().year(2023))).containsExactly("A-1");
    assertThat(ids(new Query().rulebook("OECD"))).containsExactly("B-1");
    assertThat(ids(new Query().holder("ENT-1"))).containsExactly("A-1");
    assertThat(ids(new Query().notMet("GERMINATION"))).containsExactly("A-1");
    assertThat(ids(new Query().notMet("POST_CONTROL"))).containsExactly("B-1");
    assertThat(ids(new Query().owed("ERGOT"))).containsExactly("B-1");
    assertThat(ids(new Query().owing())).containsExactly("B-1");
    assertThat(ids(new Query().prefix("b-"))).containsExactly("B-1");
    assertThat(ids(new Query().prefix("1"))).isEmpty();
  }

  @Test
  void theReasonIsTheFirstThingWrong() {
    put(
        standing("lot:A-1", StandingState.NOT_FIT)
            .setVerdicts(
                List.of(
                    verdict("SAMPLING", VerdictState.OWED),
                    verdict("GERMINATION", VerdictState.NOT_MET)))
            .build());
    put(
        standing("lot:B-1", StandingState.NOT_FIT)
            .setInherited(List.of(trouble("POST_CONTROL", "CONDEMNS")))
            .build());

    assertThat(reason("A-1").verdict().orElseThrow().getGate()).isEqualTo("GERMINATION");
    assertThat(reason("A-1").trouble()).isEmpty();
    assertThat(reason("B-1").trouble().orElseThrow().getOrigin()).isEqualTo("lot:OLD");
    assertThat(EnglishWords.firstReasons().reason(reason("B-1")))
        .as("as an earlier version recorded it")
        .isEqualTo("From lot OLD: POST_CONTROL of an ancestor.");
  }

  @Test
  void theRecordIsGivenBackAsItCame() {
    byte[] bytes = "any bytes, and again any bytes".getBytes(StandardCharsets.UTF_8);
    index.put(lot("L-1", StandingState.FIT), bytes, Instant.EPOCH);

    assertThat(index.bytes(Subject.lot("L-1")).orElseThrow()).isEqualTo(bytes);
  }

  private Optional<StandingIndexRow> put(LotStanding standing) {
    return index.put(standing, new byte[] {0}, Instant.EPOCH);
  }

  private void put(String id, double heldKg, double givenOutKg, Instant changedAt) {
    index.put(
        standing("lot:" + id, StandingState.FIT)
            .setHeldKg(heldKg)
            .setGivenOutKg(givenOutKg)
            .build(),
        new byte[] {0},
        changedAt);
  }

  private FirstReason reason(String lotId) {
    return index.row(Subject.lot(lotId)).orElseThrow().reason();
  }

  private List<String> ids(Query query) {
    return index.find(query.build(), row -> true).items().stream()
        .map(row -> row.subject().id())
        .toList();
  }

  private static Query query() {
    return new Query();
  }

  private static LotStanding lot(String id, StandingState state) {
    return standing("lot:" + id, state).build();
  }

  private static LotStanding crop(String id, StandingState state) {
    return standing("crop:" + id, state).build();
  }

  private static LotStanding.Builder standing(String subject, StandingState state) {
    return LotStanding.newBuilder()
        .setSubject(subject)
        .setState(state)
        .setVerdicts(List.of())
        .setInherited(List.of())
        .setHeldKg(0)
        .setGivenOutKg(0)
        .setParents(List.of());
  }

  private static SeedMaterial material(
      String hybridId, String seedId, String category, int cropYear, String rulebookId) {
    return new SeedMaterial(hybridId, seedId, "COMPONENT", category, cropYear, rulebookId);
  }

  private static GateVerdict verdict(String gate, VerdictState state) {
    return GateVerdict.newBuilder()
        .setGate(gate)
        .setAspect("")
        .setState(state)
        .setFactIds(List.of())
        .setSentence(gate + " is " + state + ".")
        .build();
  }

  private static InheritedTrouble trouble(String gate, String weight) {
    return new InheritedTrouble(
        gate,
        "",
        weight,
        "lot:OLD",
        List.of("lot:OLD"),
        List.of(),
        gate + " of an ancestor.",
        null,
        List.of());
  }

  /** A query of which only what a test is about is said. */
  private static final class Query {
    private Set<Subject.Kind> kinds = Set.of(Subject.Kind.LOT);
    private Set<StandingState> states = Set.of();
    private Optional<String> hybrid = Optional.empty();
    private Optional<String> seed = Optional.empty();
    private Optional<String> category = Optional.empty();
    private Optional<Integer> year = Optional.empty();
    private Optional<String> holder = Optional.empty();
    private Optional<String> rulebook = Optional.empty();
    private Optional<String> notMet = Optional.empty();
    private Optional<String> owed = Optional.empty();
    private boolean owing;
    private Optional<String> prefix = Optional.empty();
    private Order order = Order.WORST;
    private int page = 1;
    private int size = 50;

    Query kinds(Subject.Kind... any) {
      kinds = Set.of(any);
      return this;
    }

    Query states(StandingState... any) {
      states = Set.of(any);
      return this;
    }

    Query hybrid(String id) {
      hybrid = Optional.of(id);
      return this;
    }

    Query seed(String id) {
      seed = Optional.of(id);
      return this;
    }

    Query category(String name) {
      category = Optional.of(name);
      return this;
    }

    Query year(int cropYear) {
      year = Optional.of(cropYear);
      return this;
    }

    Query holder(String id) {
      holder = Optional.of(id);
      return this;
    }

    Query rulebook(String id) {
      rulebook = Optional.of(id);
      return this;
    }

    Query notMet(String gate) {
      notMet = Optional.of(gate);
      return this;
    }

    Query owed(String gate) {
      owed = Optional.of(gate);
      return this;
    }

    Query owing() {
      owing = true;
      return this;
    }

    Query prefix(String text) {
      prefix = Optional.of(text);
      return this;
    }

    Query order(Order wanted) {
      order = wanted;
      return this;
    }

    Query page(int number, int entries) {
      page = number;
      size = entries;
      return this;
    }

    StandingQuery build() {
      return new StandingQuery(
          kinds, states, Set.of(), hybrid, seed, category, year, holder, rulebook, notMet, owed,
          owing, prefix, order, page, size);
    }
  }
}
