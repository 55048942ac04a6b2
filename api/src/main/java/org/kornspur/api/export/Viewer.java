package org.kornspur.api.export;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.access.CurrentCaller;
import org.kornspur.api.access.Sight;
import org.kornspur.api.border.Border;
import org.kornspur.api.border.BorderedPedigree;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Pedigree;

/** Who asks for an export, and what of the data may go into it. */
@ApplicationScoped
public class Viewer {
  private final CurrentCaller caller;
  private final Border border;
  private final Engine engine;

  @Inject
  public Viewer(CurrentCaller caller, Border border, Engine engine) {
    this.caller = caller;
    this.border = border;
    this.engine = engine;
  }

  /** The id of the person who asks. */
  String personId() {
    return caller.get().personId();
  }

  boolean sees(Subject subject) {
    return border.sight().sees(subject);
  }

  /** The pedigree up to the border of what the caller sees. */
  Pedigree pedigree() {
    Sight sight = border.sight();
    return sight.isWhole() ? engine.pedigree() : new BorderedPedigree(engine.pedigree(), sight);
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
    return ApiProblem.noFactNames(subject, "Ids are case-sensitive.");
  }
}
