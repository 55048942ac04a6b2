package org.kornspur.api.export;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.access.CurrentCaller;
import org.kornspur.api.border.Bookmarks;
import org.kornspur.api.border.Border;
import org.kornspur.api.border.BorderedPedigree;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Pedigree;

/** Who asks for an export, and what of the data may go into it. */
@ApplicationScoped
public class Viewer {
  private final CurrentCaller caller;
  private final Border border;
  private final Engine engine;
  private final Bookmarks bookmarks;

  @Inject
  public Viewer(CurrentCaller caller, Border border, Engine engine, Bookmarks bookmarks) {
    this.caller = caller;
    this.border = border;
    this.engine = engine;
    this.bookmarks = bookmarks;
  }

  /** The id of the person who asks. */
  String personId() {
    return caller.get().personId();
  }

  boolean seesEverything() {
    return border.sight().isWhole();
  }

  /** Where a page of events ends, as the caller is told it. */
  String marked(String place) {
    return bookmarks.told(border.sight(), Bookmarks.Use.EVENT_PAGE, place);
  }

  /** The place that a mark of the caller's stands for; empty where it is none. */
  Optional<String> placeOf(String mark) {
    return bookmarks.read(border.sight(), Bookmarks.Use.EVENT_PAGE, mark);
  }

  boolean sees(Subject subject) {
    return border.sight().sees(subject);
  }

  /** The pedigree up to the border of what the caller sees. */
  Pedigree pedigree() {
    return BorderedPedigree.of(engine.pedigree(), border.sight());
  }

  boolean sees(SpecificRecord fact) {
    return border.sight().sees(fact);
  }

  /**
   * Ends the request as for a subject that does not exist, where the caller does not see it.
   *
   * @throws ApiProblem if it is not seen
   */
  void requireSight(Subject subject) {
    if (!sees(subject)) {
      throw unknown(subject);
    }
  }

  static ApiProblem unknown(Subject subject) {
    return ApiProblem.noFactNames(subject, RecordDetail.Hint.NONE);
  }
}
