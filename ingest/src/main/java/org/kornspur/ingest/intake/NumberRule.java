package org.kornspur.ingest.intake;

import org.apache.avro.Schema;
import org.kornspur.ingest.contract.FieldPath;
import org.kornspur.ingest.problem.NumberProblem;
import org.kornspur.ingest.problem.Reason;
import org.kornspur.ingest.problem.Remedy;
import org.kornspur.ingest.statement.Value.Amount;

/**
 * Limits of a number, as the annotations {@code min}, {@code max} and {@code smallest} give them.
 * What lies beyond is refused though it could be computed with: a mass of 1e-180 g is a slip or an
 * attack, and its square is nothing.
 */
final class NumberRule {

  private NumberRule() {}

  static void check(Schema schema, double number, FieldPath at, Problems into) {
    boolean zeroMay = schema.getObjectProp("smallest") != null;
    Amount least = limit(schema, zeroMay ? "smallest" : "min");
    Amount most = limit(schema, "max");
    boolean within = number >= least.number() && number <= most.number();
    if (!within && !(zeroMay && number == 0)) {
      Remedy remedy = new Remedy(at.type(), at.field());
      Reason reason =
          zeroMay
              ? new NumberProblem.NeitherZeroNorInRange(least, most, remedy)
              : new NumberProblem.OutOfRange(least, most, remedy);
      into.add(at.path(), number, reason);
    }
  }

  private static Amount limit(Schema schema, String annotation) {
    if (schema.getObjectProp(annotation) instanceof Number limit) {
      return new Amount(limit.doubleValue(), schema.getProp("unit"));
    }
    throw new IllegalStateException("A number of the contract lacks @" + annotation);
  }
}
