package org.kornspur.api.export.paper;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.StreamingOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.IntConsumer;
import java.util.stream.Collectors;
import org.kornspur.api.command.act.ActView;
import org.kornspur.api.command.act.VisibleActs;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.recall.RecallDrills;
import org.kornspur.api.query.recall.RecallView;
import org.kornspur.api.query.recall.TraceWords;
import org.kornspur.api.query.view.GateView;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.query.view.TraceView;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Trace;

/**
 * Prints what several lots share: each lot, each ancestor, each fact and each source of a limit
 * once. It comes in as few files as can be made within the memory for one.
 */
@RequestScoped
public class AppendixPaper {
  /** Crops and lots that one appendix shows at most; those chosen come before their ancestors. */
  public static final int MOST_SUBJECTS = 1_000;

  /** Beyond it the next file begins; the last chapter still has room. */
  private static final long FULL = PdfRenderer.MOST_CHARACTERS * 3 / 4;

  @Inject RequestWords requestWords;
  @Inject QueryService queries;
  @Inject VisibleData data;
  @Inject ProcessorsClient processors;
  @Inject RecallDrills drills;
  @Inject VisibleActs acts;
  @Inject ReceiptTimes receipts;

  /**
   * A verdict.
   *
   * @param source number of the source of its limit; empty where it has none
   */
  public record Sourced(GateView gate, Optional<Integer> source) {}

  /**
   * One crop or lot.
   *
   * @param drill of one that was chosen; empty for an ancestor
   * @param acts what persons signed, and what was refused to them
   * @param facts those that were not printed for another before
   * @param printedBefore ids of the others
   */
  public record Chapter(
      StandingView standing,
      Optional<RecallView> drill,
      List<Sourced> gates,
      List<ActView> acts,
      List<PrintedFact> facts,
      List<String> printedBefore,
      Heading heading) {}

  /** A line of the contents. */
  public record Heading(String name, String anchor) {}

  /**
   * One file.
   *
   * @param number from 1
   * @param chapters as XHTML
   * @param sources with their numbers, in the last file
   */
  public record Part(
      int number, List<Heading> contents, String chapters, Map<Integer, String> sources) {}

  /** Takes the files as they are made. */
  public interface Receiver {

    /**
     * @param number from 1
     * @param contents names of the crops and lots in it
     */
    void take(int number, List<String> contents, StreamingOutput pdf)
        throws IOException, InterruptedException;
  }

  @CheckedTemplate(basePath = "paper")
  static class Templates {
    static native TemplateInstance appendix(PaperFrame page, Part part);

    static native TemplateInstance chapter(PaperFrame page, Chapter chapter, TraceWords words);
  }

  /** These lots and all their ancestors that the caller sees, each once, the lots first. */
  public List<Subject> subjects(Collection<Subject> lots) {
    Set<Subject> subjects = new LinkedHashSet<>(lots);
    for (Subject lot : lots) {
      queries.trace(lot, Trace.Direction.BACK, MOST_SUBJECTS).nodes().stream()
          .map(TraceView.Node::subject)
          .map(Subject::parse)
          .filter(one -> one.kind().isJudged() && data.row(one).isPresent())
          .forEach(subjects::add);
    }
    return List.copyOf(subjects);
  }

  /**
   * Makes the files.
   *
   * @param subjects as {@link #subjects} gives them
   * @param chosen those of them that were chosen themselves
   * @param progress is told how many are done
   */
  public void print(
      List<Subject> subjects, Set<Subject> chosen, IntConsumer progress, Receiver receiver)
      throws IOException, InterruptedException {
    Map<String, Integer> sources = new LinkedHashMap<>();
    Set<String> printed = new HashSet<>();
    PaperFrame frame = PaperFrame.of(requestWords, queries.asOf());
    TraceWords words = TraceWords.of(requestWords);
    List<Heading> contents = new ArrayList<>();
    StringBuilder chapters = new StringBuilder();
    int number = 1;
    for (int at = 0; at < subjects.size(); at++) {
      if (chapters.length() > FULL) {
        give(new Part(number++, List.copyOf(contents), chapters.toString(), Map.of()), receiver);
        contents.clear();
        chapters.setLength(0);
      }
      Subject subject = subjects.get(at);
      Heading heading = new Heading(words.name(subject.toString()), "a" + at);
      contents.add(heading);
      chapters.append(
          requestWords.render(
              Templates.chapter(
                  frame,
                  chapter(subject, chosen.contains(subject), heading, sources, printed),
                  words)));
      progress.accept(at + 1);
    }
    Map<Integer, String> numbered = new LinkedHashMap<>();
    sources.forEach((source, place) -> numbered.put(place, source));
    give(new Part(number, List.copyOf(contents), chapters.toString(), numbered), receiver);
  }

  private void give(Part part, Receiver receiver) throws IOException, InterruptedException {
    PaperFrame frame = PaperFrame.of(requestWords, queries.asOf());
    receiver.take(
        part.number(),
        part.contents().stream().map(Heading::name).toList(),
        PdfRenderer.paper(requestWords.render(Templates.appendix(frame, part)), List.of()));
  }

  private Chapter chapter(
      Subject subject,
      boolean chosen,
      Heading heading,
      Map<String, Integer> sources,
      Set<String> printed) {
    StandingView standing = queries.view(subject);
    List<ActView> signed = acts.of(subject);
    Map<String, ActView> byId =
        signed.stream().collect(Collectors.toMap(ActView::actId, Function.identity()));
    List<PrintedFact> facts = new ArrayList<>();
    List<String> printedBefore = new ArrayList<>();
    for (Entry fact : processors.entries(subject)) {
      String factId = fact.header().getFactId();
      if (data.sees(fact) && !printed.add(factId)) {
        printedBefore.add(factId);
      } else if (data.sees(fact)) {
        facts.add(
            PrintedFact.of(
                fact, receipts.late(fact.header()), Optional.ofNullable(byId.get(factId))));
      }
    }
    return new Chapter(
        standing,
        chosen ? Optional.of(drills.drill(subject, Map.of())) : Optional.empty(),
        standing.gates().stream()
            .map(
                gate ->
                    new Sourced(
                        gate,
                        Optional.ofNullable(gate.limit())
                            .map(
                                limit ->
                                    sources.computeIfAbsent(
                                        limit.source(), unknown -> sources.size() + 1))))
            .toList(),
        signed,
        facts,
        printedBefore,
        heading);
  }
}
