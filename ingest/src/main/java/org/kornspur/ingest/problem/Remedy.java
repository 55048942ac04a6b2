package org.kornspur.ingest.problem;

import java.util.List;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;

/**
 * What to do about a value of a field, as the annotation {@code remedy} of the contract says. Its
 * code names the field, and so finds its text.
 */
public record Remedy(String type, String field) implements Statement {

  /** The code of every one begins with it. */
  public static final String FAMILY = "remedy.";

  @Override
  public Coded coded() {
    return new Coded(FAMILY + type + "." + field, List.of());
  }
}
