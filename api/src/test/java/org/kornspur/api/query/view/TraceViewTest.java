package org.kornspur.api.query.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.api.readmodel.InventedChange;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.text.EnglishWords;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.processors.pedigree.Trace.Direction;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

class TraceViewTest {
  private static final Subject MOTHER = Subject.lot("M");
  private static final Subject PART = Subject.lot("P");
  private static final Subject OTHER = Subject.lot("O");
  private static final AsOf NOW = AsOf.waiting(Instant.EPOCH, Map.of(), 0, EnglishWords.words());

  /** M was split into P and O; both went to two customers. */
  private static final List<Edge> EDGES =
      List.of(
          edge(MOTHER, PART, 600, FactType.LOT_SPLIT),
          edge(MOTHER, OTHER, 400, FactType.LOT_SPLIT),
          edge(PART, Subject.enterprise("X"), 250, FactType.DISPATCH),
          edge(PART, Subject.enterprise("Y"), 100, FactType.DISPATCH),
          edge(OTHER, Subject.enterprise("X"), 50, FactType.DISPATCH));

  private static final Pedigree PEDIGREE =
      new Pedigree() {
        @Override
        public List<Edge> edgesInto(Subject child) {
          return EDGES.stream().filter(edge -> edge.child().equals(child)).toList();
        }

        @Override
        public List<Edge> edgesOutOf(Subject parent) {
          return EDGES.stream().filter(edge -> edge.parent().equals(parent)).toList();
        }
      };

  @Test
  void whatReachedCustomersIsSummedByCustomer() {
    TraceView view = trace(MOTHER, Direction.FORWARD, 100, List.of(MOTHER, PART, OTHER));

    assertThat(view.dispatched().totalKg()).isEqualTo(400);
    assertThat(view.dispatched().byCustomerKg()).isEqualTo(Map.of("X", 300.0, "Y", 100.0));
    assertThat(view.complete()).isTrue();
    assertThat(view.unresolved()).isEmpty();
  }

  @Test
  void aCustomerIsNoUnresolvedLinkButALotWithoutAStandingIs() {
    TraceView view = trace(MOTHER, Direction.FORWARD, 100, List.of(MOTHER, PART));

    assertThat(view.unresolved()).extracting(SubjectLink::subject).containsExactly("lot:O");
    assertThat(view.complete()).isFalse();
    assertThat(view.note()).startsWith("Incomplete: 1 ");
  }

  @Test
  void aWalkThatStoppedAtItsBoundSaysSo() {
    TraceView view = trace(MOTHER, Direction.FORWARD, 2, List.of(MOTHER, PART, OTHER));

    assertThat(view.nodes()).hasSize(2);
    assertThat(view.complete()).isFalse();
    assertThat(view.note()).contains("stopped at 2 subjects");
  }

  @Test
  void backThereAreNoCustomers() {
    TraceView view = trace(PART, Direction.BACK, 100, List.of(MOTHER, PART));

    assertThat(view.dispatched()).isNull();
    assertThat(view.nodes()).extracting(TraceView.Node::steps).containsExactly(0, 1);
    assertThat(view.edges()).extracting(TraceView.Movement::massKg).containsExactly(600.0);
  }

  private static TraceView trace(
      Subject start, Direction direction, int most, List<Subject> standing) {
    return TraceView.of(
        Trace.walk(PEDIGREE, start, direction, most),
        subject -> standing.contains(subject) ? Optional.of(row(subject)) : Optional.empty(),
        Visibility.everything(),
        EnglishWords.firstReasons(),
        1.5,
        NOW);
  }

  private static StandingIndexRow row(Subject subject) {
    return new StandingIndexRow(
        subject,
        StandingState.FIT,
        ReleaseStep.NONE,
        InventedChange.REASON,
        Optional.empty(),
        Optional.empty(),
        List.of(),
        List.of(),
        0,
        0,
        Optional.empty(),
        false,
        Optional.empty(),
        Instant.EPOCH);
  }

  private static Edge edge(Subject parent, Subject child, double massKg, FactType by) {
    return new Edge(parent, child, massKg, by, "f-" + parent.id() + child.id(), Instant.EPOCH);
  }
}
