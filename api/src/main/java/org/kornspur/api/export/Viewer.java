package org.kornspur.api.export;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.access.CurrentCaller;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.visibility.CursorCipher;
import org.kornspur.api.visibility.VisibilityService;
import org.kornspur.api.visibility.VisiblePedigree;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Pedigree;

/** Who asks for an export, and what of the data may go into it. */
@ApplicationScoped
public class Viewer {
  private final CurrentCaller caller;
  private final VisibilityService border;
  private final Engine engine;
  private final CursorCipher cursors;

  @Inject
  public Viewer(
      CurrentCaller caller, VisibilityService border, Engine engine, CursorCipher cursors) {
    this.caller = caller;
    this.border = border;
    this.engine = engine;
    this.cursors = cursors;
  }

  /** The id of the person who asks. */
  String personId() {
    return caller.get().personId();
  }

  boolean seesEverything() {
    return border.visibility().isWhole();
  }

  /** Where a page of events ends, as the caller is told it. */
  String marked(String place) {
    return cursors.told(border.visibility(), CursorCipher.Use.EVENT_PAGE, place);
  }

  /** The place that a mark of the caller's stands for; empty where it is none. */
  Optional<String> placeOf(String mark) {
    return cursors.read(border.visibility(), CursorCipher.Use.EVENT_PAGE, mark);
  }

  boolean sees(Subject subject) {
    return border.visibility().sees(subject);
  }

  /** The pedigree up to the border of what the caller sees. */
  Pedigree pedigree() {
    return VisiblePedigree.of(engine.pedigree(), border.visibility());
  }

  boolean sees(SpecificRecord fact) {
    return border.visibility().sees(fact);
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
