package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Predicate;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.processors.pedigree.Edges;

/**
 * One lot of certified seed of the demo with all that it came from: breeder's stock, crops,
 * inspections, tests, mixtures. All of it is fit, so that one odd number in it has something to
 * spoil.
 */
final class Chain {
  static final Subject CERTIFIED = Subject.lot("L25-01-1");
  static final Subject MIXTURE = Subject.lot("M24-01");

  private static final List<SpecificRecord> FACTS = read();

  private Chain() {}

  /** Its facts, in the order of the demo; to be changed only in a copy. */
  static List<SpecificRecord> facts() {
    return new ArrayList<>(FACTS);
  }

  static <T extends SpecificRecord> T copy(T fact) {
    return SpecificData.get().deepCopy(fact.getSchema(), fact);
  }

  static String idOf(SpecificRecord fact) {
    return FactType.headerOf(fact).getFactId();
  }

  /** A number in a fact. */
  record Number(Schema schema, Consumer<Object> put) {}

  /** The numbers of a fact, those of its lists too; times are none. */
  static List<Number> numbersOf(SpecificRecord fact) {
    List<Number> found = new ArrayList<>();
    collect(fact.getSchema(), fact, found);
    return found;
  }

  private static void collect(Schema schema, IndexedRecord branch, List<Number> into) {
    for (Schema.Field field : schema.getFields()) {
      Schema plain =
          field.schema().getType() == Schema.Type.UNION
              ? FieldLimits.branchOf(field.schema())
              : field.schema();
      Object value = branch.get(field.pos());
      if (plain.getType() == Schema.Type.INT || plain.getType() == Schema.Type.DOUBLE) {
        into.add(new Number(plain, number -> branch.put(field.pos(), number)));
      } else if (value instanceof IndexedRecord inner) {
        collect(plain, inner, into);
      } else if (value instanceof List<?> elements) {
        for (Object element : elements) {
          if (element instanceof IndexedRecord inner) {
            collect(plain.getElementType(), inner, into);
          }
        }
      }
    }
  }

  private static List<SpecificRecord> read() {
    List<SpecificRecord> demo = JudgedDemo.facts();
    Set<Subject> seed = new HashSet<>(Set.of(CERTIFIED));
    boolean more = true;
    while (more) {
      Set<Subject> parents = new HashSet<>();
      demo.stream()
          .flatMap(fact -> Edges.of(fact).stream())
          .filter(edge -> seed.contains(edge.child()))
          .forEach(edge -> parents.add(edge.parent()));
      more = seed.addAll(parents);
    }
    seed.add(Subject.hybrid("HYB-01"));
    return demo.stream()
        .filter(
            fact ->
                isLaboratory(fact)
                    || SubjectsNamed.of(fact).stream()
                        .filter(subject -> subject.kind() != Subject.Kind.HYBRID || isMaster(fact))
                        .anyMatch(seed::contains))
        .filter(distinctById())
        .toList();
  }

  private static Predicate<SpecificRecord> distinctById() {
    Set<String> seen = new HashSet<>();
    return fact -> seen.add(idOf(fact));
  }

  /** No result counts of a laboratory that is not declared. */
  private static boolean isLaboratory(SpecificRecord fact) {
    return fact instanceof EnterpriseDeclared declared && !declared.getAccreditations().isEmpty();
  }

  private static boolean isMaster(SpecificRecord fact) {
    return FactType.of(fact) == FactType.HYBRID_DECLARED;
  }
}
