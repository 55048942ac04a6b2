package org.kornspur.api.export.paper;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.StreamingOutput;
import jakarta.ws.rs.core.UriInfo;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.kornspur.api.command.act.ActView;
import org.kornspur.api.command.act.VisibleActs;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.query.proof.CheckpointCover;
import org.kornspur.api.query.proof.LogCoverage;
import org.kornspur.api.query.recall.RecallDrills;
import org.kornspur.api.query.recall.RecallView;
import org.kornspur.api.query.recall.TraceWords;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.query.view.TraceView;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.security.visibility.VisibilityService;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;

/** Prints the dossier of a crop or lot, with those of its ancestors. */
@RequestScoped
public class DossierPaper {
  private static final int MOST_ANCESTORS = 200;

  /** No further ancestor is printed once there are so many facts; see {@link PdfRenderer#paper}. */
  private static final int MOST_FACTS = 400;

  private final UriInfo uri;

  @Inject RequestWords requestWords;
  @Inject QueryService queries;
  @Inject ProcessorsClient processors;
  @Inject RecallDrills drills;
  @Inject VisibilityService visibilityService;
  @Inject VisibleActs acts;
  @Inject CheckpointCover covers;
  @Inject ReceiptTimes receipts;
  @Inject CurrentCaller caller;
  @Inject StandingHeadlines headlines;
  @Inject ObjectMapper json;

  public DossierPaper(@Context UriInfo uri) {
    this.uri = uri;
  }

  /**
   * One crop or lot in the dossier.
   *
   * @param acts what persons signed, and what was refused to them
   * @param facts those that were not printed for another before
   */
  public record Chapter(
      Subject subject,
      StandingView standing,
      List<ActView> acts,
      List<PrintedFact> facts,
      String anchor) {}

  /**
   * What the paper shows.
   *
   * @param verdict the standing in one sentence
   * @param leftOut ancestors that it has no room for
   * @param sha256 over the enclosed file
   * @param facts number of facts in it
   * @param cover checkpoints over them; empty for who may not read the log
   * @param proof address under which what proves them is given out
   */
  public record Printed(
      Subject subject,
      Chapter own,
      String verdict,
      List<Chapter> ancestors,
      int leftOut,
      RecallView drill,
      String sha256,
      int facts,
      Optional<LogCoverage> cover,
      String proof) {

    public boolean isLot() {
      return subject.kind() == Subject.Kind.LOT;
    }

    /** Whether it speaks of signatures: of a crop there are some only where it was condemned. */
    public boolean isSigning() {
      return isLot() || !own.acts().isEmpty();
    }
  }

  @CheckedTemplate(basePath = "paper")
  static class Templates {
    static native TemplateInstance dossier(PaperFrame page, Printed dossier, TraceWords words);
  }

  /**
   * The dossier as PDF, made when it is written.
   *
   * @throws org.kornspur.api.problem.ApiProblem if nothing is known of the subject, or the caller
   *     does not see it
   */
  StreamingOutput print(Subject subject) {
    RecallView drill = drills.drill(subject, Map.of());
    Visibility visibility = visibilityService.visibility();
    List<Subject> ancestors =
        drill.back().nodes().stream()
            .skip(1)
            .map(TraceView.Node::subject)
            .map(Subject::parse)
            .filter(visibility::sees)
            .toList();
    DossierJson file = new DossierJson(json, subject.toString());
    Set<String> printed = new HashSet<>();
    Chapter own = chapter(subject, "own", file, printed, visibility);
    List<Chapter> chapters = new ArrayList<>();
    for (Subject ancestor : ancestors) {
      if (chapters.size() == MOST_ANCESTORS || printed.size() >= MOST_FACTS) {
        break;
      }
      chapters.add(chapter(ancestor, "a" + (chapters.size() + 1), file, printed, visibility));
    }
    byte[] content = file.bytes();
    Optional<LogCoverage> cover =
        caller.get().may(Permission.READ_LOG)
            ? Optional.of(covers.cover(file.factIds()))
            : Optional.empty();
    Printed dossier =
        new Printed(
            subject,
            own,
            headlines.sentence(own.standing()),
            chapters,
            ancestors.size() - chapters.size(),
            drill,
            DossierJson.sha256(content),
            file.factIds().size(),
            cover,
            uri.getBaseUri().resolve(Addresses.of(subject) + "/proof").toString());
    String page =
        requestWords.render(
            Templates.dossier(
                PaperFrame.of(requestWords, drill.asOf()), dossier, TraceWords.of(requestWords)));
    List<PdfRenderer.Enclosure> enclosures = new ArrayList<>();
    enclosures.add(
        new PdfRenderer.Enclosure(
            "dossier.json", "application/json", "The content of this dossier", content));
    cover
        .map(LogCoverage::checkpoints)
        .filter(checkpoints -> !checkpoints.isEmpty())
        .ifPresent(checkpoints -> enclosures.add(enclosed(checkpoints)));
    return PdfRenderer.paper(page, enclosures);
  }

  private PdfRenderer.Enclosure enclosed(List<Checkpoint> checkpoints) {
    ArrayNode list = json.createArrayNode();
    checkpoints.forEach(checkpoint -> list.add(checkpoint.toJson()));
    return new PdfRenderer.Enclosure(
        "checkpoints.json",
        "application/json",
        "Signed checkpoints of the log over these facts",
        list.toString().getBytes(StandardCharsets.UTF_8));
  }

  private Chapter chapter(
      Subject subject,
      String anchor,
      DossierJson file,
      Set<String> printed,
      Visibility visibility) {
    StandingView standing = queries.view(subject);
    file.add(standing);
    List<ActView> signed = acts.of(subject);
    Map<String, ActView> byId =
        signed.stream().collect(Collectors.toMap(ActView::actId, Function.identity()));
    List<PrintedFact> facts = new ArrayList<>();
    for (Entry entry : processors.entries(subject)) {
      if (visibility.sees(entry.fact()) && printed.add(entry.header().getFactId())) {
        file.add(entry);
        facts.add(
            PrintedFact.of(
                entry,
                receipts.late(entry.header()),
                Optional.ofNullable(byId.get(entry.header().getFactId()))));
      }
    }
    return new Chapter(subject, standing, signed, List.copyOf(facts), anchor);
  }
}
