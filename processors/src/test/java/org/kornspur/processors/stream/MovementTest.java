package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Movement;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.LotAccount;
import org.kornspur.processors.balance.MassBalance.Tolerance;
import org.kornspur.processors.balance.MassBalanceAccount;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.balance.MassFlow.Direction;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.gates.SameSeed;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Edges;
import org.kornspur.processors.verdict.Gate;

/**
 * A type of fact that moves seed says how, and what is drawn from that agrees with its edges and
 * masses. Looked at in the demo, which has facts of every type. That seed and mass are not lost
 * between facts is the meaning of the pedigree and needs no source.
 */
class MovementTest {
  private static final Map<FactType, List<SpecificRecord>> BY_TYPE =
      JudgedDemo.facts().stream().collect(Collectors.groupingBy(FactType::of));

  @ParameterizedTest
  @EnumSource(FactType.class)
  void whatMakesEdgesSaysHowItMovesSeed(FactType type) {
    boolean moves = type.movement().isPresent();
    if (type.isAct()) {
      assertThat(moves).isFalse();
    } else {
      assertThat(BY_TYPE.get(type))
          .isNotEmpty()
          .allMatch(fact -> Edges.of(fact).isEmpty() != moves)
          .allMatch(fact -> MassFlow.of(fact).isEmpty() != (moves || isFirst(type)));
    }
  }

  /** A declared lot has mass from outside and comes from nowhere here. */
  private static boolean isFirst(FactType type) {
    return type == FactType.LOT_DECLARED;
  }

  @Test
  void edgesGoWhereTheMovementSays() {
    assertThat(moved())
        .allSatisfy(
            fact -> {
              Movement how = FactType.of(fact).movement().orElseThrow();
              assertThat(Edges.of(fact))
                  .extracting(edge -> List.of(edge.parent().kind(), edge.child().kind()))
                  .containsOnly(
                      switch (how) {
                        case SOWN -> List.of(Subject.Kind.LOT, Subject.Kind.CROP);
                        case HARVESTED -> List.of(Subject.Kind.CROP, Subject.Kind.LOT);
                        case CONDITIONED, REGROUPED, MIXED ->
                            List.of(Subject.Kind.LOT, Subject.Kind.LOT);
                        case HANDED_OVER -> List.of(Subject.Kind.LOT, Subject.Kind.ENTERPRISE);
                      });
            });
  }

  @Test
  void everyKilogramStandsInTheAccountOfItsLot() {
    assertThat(moved())
        .allSatisfy(
            fact -> {
              Set<String> lotIds =
                  MassFlow.of(fact).stream().map(MassFlow::lotId).collect(Collectors.toSet());
              for (LotAccount account : accounts(fact, lotIds)) {
                assertThat(account.inKg())
                    .isCloseTo(kg(fact, account.lotId(), Direction.IN), within(1e-6));
                assertThat(account.outKg())
                    .isCloseTo(kg(fact, account.lotId(), Direction.OUT), within(1e-6));
              }
            });
  }

  private static List<LotAccount> accounts(SpecificRecord fact, Set<String> lotIds) {
    return MassBalanceAccount.balance(
            lotIds, List.of(fact), Map.of(), new Tolerance(0.5, "common practice, no source"))
        .lots();
  }

  private static double kg(SpecificRecord fact, String lotId, Direction direction) {
    return MassFlow.of(fact).stream()
        .filter(flow -> flow.lotId().equals(lotId) && flow.direction() == direction)
        .mapToDouble(MassFlow::massKg)
        .sum();
  }

  /** What was divided, put together or mixed takes a failure along: common practice, no source. */
  @Test
  void seedThatIsNotWorkedOnStaysWhatItWas() {
    List<Edge> edges =
        moved()
            .filter(fact -> isAsItWas(FactType.of(fact).movement().orElseThrow()))
            .flatMap(fact -> Edges.of(fact).stream())
            .toList();

    assertThat(edges)
        .isNotEmpty()
        .allSatisfy(
            edge ->
                assertThat(Gate.values())
                    .allMatch(gate -> SameSeed.isMovedBy(edge, gate, unknown(edge.parent()))));
  }

  private static boolean isAsItWas(Movement how) {
    return how == Movement.REGROUPED || how == Movement.MIXED;
  }

  private static Dossier unknown(Subject subject) {
    return new Dossier(subject, List.of(), List.of());
  }

  private static Stream<SpecificRecord> moved() {
    return JudgedDemo.facts().stream().filter(fact -> FactType.of(fact).movement().isPresent());
  }
}
