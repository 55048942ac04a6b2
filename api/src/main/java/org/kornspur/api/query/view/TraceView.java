package org.kornspur.api.query.view;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.FirstReasonWords;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.standing.StandingState;

@Schema(description = "Where a crop or lot came from, or where it went")
public record TraceView(
    SubjectLink start,
    @Schema(enumeration = {"back", "forward"}) String direction,
    @Schema(description = "Every subject reached, nearest first; the start stands first")
        List<Node> nodes,
    @Schema(description = "Every movement of seed between them, nearest first")
        List<Movement> edges,
    @Schema(description = "False where the walk stopped at the bound, or links are unresolved")
        boolean complete,
    @Schema(description = "Crops and lots that a fact names and of which nothing else is known")
        List<SubjectLink> unresolved,
    @Schema(nullable = true, description = "What reached customers; only forward")
        Dispatched dispatched,
    @Schema(description = "Time that the walk took, milliseconds", examples = "3.2")
        double elapsedMs,
    @Schema(description = "In one sentence, how far the answer can be relied on") String note,
    AsOf asOf) {

  @Schema(description = "A subject in a trace")
  public record Node(
      String subject,
      @Schema(enumeration = {"lot", "crop", "enterprise"}) String kind,
      String id,
      @Schema(description = "Fewest steps from the start", examples = "2") int steps,
      @Schema(nullable = true, description = "Null for customers, and where no standing is known")
          StandingState state,
      @Schema(nullable = true) String reason,
      @Schema(nullable = true) MaterialView material,
      @Schema(
              nullable = true,
              description = "Enterprise that grew or declared it; null where not known")
          String holder,
      String href) {}

  @Schema(description = "Seed that moved from parent to child")
  public record Movement(
      String parent,
      String child,
      @Schema(
              description =
                  "Mass that reached the child from this parent; shared in proportion where several"
                      + " parents went into several children",
              examples = "1200")
          double massKg,
      @Schema(description = "Type of the fact that moved it", examples = "Sowing") String by,
      String factId,
      Instant happenedAt) {

    static Movement of(Edge edge) {
      return new Movement(
          edge.parent().toString(),
          edge.child().toString(),
          edge.massKg(),
          edge.by().contractName(),
          edge.factId(),
          edge.happenedAt());
    }
  }

  @Schema(
      description =
          "What reached customers from the lots in this trace. The masses are whole: where lots of"
              + " other origin were mixed in, their seed is counted too")
  @JsonInclude(JsonInclude.Include.ALWAYS)
  public record Dispatched(
      double totalKg,
      @Schema(description = "Kilograms by customer") Map<String, Double> byCustomerKg) {

    static Dispatched of(List<Edge> edges) {
      Map<String, Double> byCustomer = new TreeMap<>();
      edges.stream()
          .filter(edge -> edge.child().kind() == Subject.Kind.ENTERPRISE)
          .forEach(edge -> byCustomer.merge(edge.child().id(), edge.massKg(), Double::sum));
      double total = byCustomer.values().stream().mapToDouble(Double::doubleValue).sum();
      return new Dispatched(total, byCustomer);
    }
  }

  /**
   * A trace in the shape of the interface.
   *
   * @param standings row of a crop or lot, where it has one
   * @param elapsedMs time that the walk took
   */
  public static TraceView of(
      Trace trace,
      Function<Subject, Optional<StandingIndexRow>> standings,
      Visibility visibility,
      FirstReasonWords words,
      double elapsedMs,
      AsOf asOf) {
    boolean isCut =
        trace.steps().keySet().stream()
            .anyMatch(subject -> subject.kind().isJudged() && !visibility.sees(subject));
    List<SubjectLink> unresolved =
        trace.steps().keySet().stream()
            .filter(subject -> subject.kind().isJudged())
            .filter(visibility::sees)
            .filter(subject -> standings.apply(subject).isEmpty())
            .map(SubjectLink::of)
            .toList();
    boolean forward = trace.direction() == Trace.Direction.FORWARD;
    return new TraceView(
        SubjectLink.of(trace.start()),
        forward ? "forward" : "back",
        trace.steps().entrySet().stream()
            .map(
                step ->
                    node(
                        step.getKey(),
                        step.getValue(),
                        standings.apply(step.getKey()),
                        visibility,
                        words))
            .toList(),
        trace.edges().stream().map(Movement::of).toList(),
        trace.complete() && unresolved.isEmpty() && !isCut,
        unresolved,
        forward ? Dispatched.of(trace.edges()) : null,
        elapsedMs,
        sentence(note(trace, isCut, unresolved.size(), asOf), asOf, words.verdicts().words()),
        asOf);
  }

  /** Beyond the border a subject is named with its enterprise, and no more is told of it. */
  private static Node node(
      Subject subject,
      int steps,
      Optional<StandingIndexRow> known,
      Visibility visibility,
      FirstReasonWords words) {
    Optional<StandingIndexRow> row = known.filter(standing -> visibility.sees(subject));
    return new Node(
        subject.toString(),
        subject.kind().word(),
        subject.id(),
        steps,
        row.map(StandingIndexRow::state).orElse(null),
        row.map(StandingIndexRow::reason).map(words::reason).orElse(null),
        row.flatMap(StandingIndexRow::material).map(MaterialView::of).orElse(null),
        known.flatMap(StandingIndexRow::holder).orElse(null),
        Addresses.of(subject));
  }

  private static TraceNote note(Trace trace, boolean isCut, int unresolved, AsOf asOf) {
    if (isCut) {
      return new TraceNote.Cut();
    } else if (!trace.complete()) {
      return new TraceNote.Stopped(trace.steps().size());
    } else if (unresolved > 0) {
      return new TraceNote.Unresolved(unresolved);
    }
    return asOf.complete() ? new TraceNote.Complete() : new TraceNote.CompleteSoFar();
  }

  private static String sentence(TraceNote note, AsOf asOf, ReaderWords words) {
    String sentence = words.plain(note);
    return note instanceof TraceNote.CompleteSoFar ? sentence + " " + asOf.note() : sentence;
  }
}
