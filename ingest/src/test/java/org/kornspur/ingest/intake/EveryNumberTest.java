package org.kornspur.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.avro.LogicalTypes;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.WeighedKernels;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.FieldPath;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.NumberProblem;
import org.kornspur.ingest.statement.Value.Amount;

/**
 * Every number, day and time of every fact type, found by walking the schemas: it has a lower and
 * an upper limit, both are taken in, and what lies beyond them is refused with field, value, limit
 * and remedy. A number that is added to the contract without limits fails here.
 */
class EveryNumberTest {
  private static final double[] EXTREMES = {
    0.0,
    -0.0,
    Double.MIN_VALUE,
    Double.MIN_NORMAL,
    1e-180,
    -Double.MIN_VALUE,
    -1e-180,
    -Double.MAX_VALUE,
    Double.MAX_VALUE,
    Double.NaN,
    Double.POSITIVE_INFINITY,
    Double.NEGATIVE_INFINITY
  };

  /** A number in a fact: where it stands, what limits it, and how another is put in its place. */
  private record Place(String path, Schema schema, Consumer<Object> put) {}

  @ParameterizedTest
  @EnumSource(FactType.class)
  void everyNumberIsTakenInAtItsLimitsAndRefusedBeyondThem(FactType type) {
    SpecificRecord fact = (SpecificRecord) least(type.schema());
    assertThat(faults(fact)).isEmpty();

    List<Place> places = numbersOf(type.schema(), fact, "");

    assertThat(places).as("at least the times of the header").hasSizeGreaterThanOrEqualTo(2);
    for (Place place : places) {
      within(place.schema()).forEach(value -> expect(fact, place, value, true));
      beyond(place.schema()).forEach(value -> expect(fact, place, value, false));
      place.put().accept(within(place.schema()).get(0));
    }
  }

  private static void expect(SpecificRecord fact, Place place, Object value, boolean takenIn) {
    place.put().accept(value);
    String what = fact.getSchema().getName() + "." + place.path() + " = " + value;
    if (takenIn) {
      assertThat(faults(fact)).as(what).isEmpty();
      assertThat(FieldLimits.beyond(fact)).as(what).isEmpty();
      return;
    }
    assertThat(faults(fact))
        .as(what)
        .singleElement()
        .satisfies(
            problem -> {
              assertThat(problem.field()).isEqualTo(place.path());
              assertThat(problem.value()).isEqualTo(Given.of(value).coded());
              assertThat(problem.reason().values())
                  .as("a least and a most with their unit")
                  .filteredOn(Amount.class::isInstance)
                  .hasSize(2)
                  .allSatisfy(limit -> assertThat(((Amount) limit).unit()).isNotEmpty());
            });
    assertThat(FactChecks.check(fact)).as(what).isNotEmpty();
    assertThat(FieldLimits.beyond(fact)).as(what).isNotEmpty();
  }

  /** What the limits of single fields say; rules that tie fields together are another matter. */
  private static List<Problem> faults(SpecificRecord fact) {
    Problems problems = new Problems();
    FieldLimits.check(fact.getSchema(), fact, FieldPath.FACT, problems);
    return problems.list();
  }

  private static List<?> within(Schema schema) {
    return switch (schema.getType()) {
      case DOUBLE ->
          schema.getObjectProp("smallest") == null
              ? List.of(limit(schema, "min"), limit(schema, "max"))
              : List.of(
                  limit(schema, "min"),
                  -limit(schema, "min"),
                  limit(schema, "smallest"),
                  limit(schema, "max"));
      case INT ->
          isDate(schema)
              ? List.of(LocalDate.of(1990, 1, 1), LocalDate.of(2100, 12, 31))
              : List.of(whole(schema, "min"), whole(schema, "max"));
      case LONG ->
          List.of(Instant.parse("1990-01-01T00:00:00Z"), Instant.parse("2100-12-31T23:59:59.999Z"));
      default -> throw new IllegalStateException("A number of type " + schema.getType());
    };
  }

  private static Stream<?> beyond(Schema schema) {
    return switch (schema.getType()) {
      case DOUBLE -> {
        double min = limit(schema, "min");
        double max = limit(schema, "max");
        boolean zeroOrMore = schema.getObjectProp("smallest") != null;
        double smallest = zeroOrMore ? limit(schema, "smallest") : min;
        yield Stream.concat(
            Stream.of(Math.nextDown(min), Math.nextDown(smallest), Math.nextUp(max)),
            Stream.of(box(EXTREMES))
                .filter(
                    value -> !(value >= smallest && value <= max) && !(zeroOrMore && value == 0)));
      }
      case INT ->
          isDate(schema)
              ? Stream.of(
                  LocalDate.of(1989, 12, 31),
                  LocalDate.of(2101, 1, 1),
                  LocalDate.ofEpochDay(Integer.MIN_VALUE),
                  LocalDate.ofEpochDay(Integer.MAX_VALUE))
              : Stream.of(
                  whole(schema, "min") - 1,
                  whole(schema, "max") + 1,
                  Integer.MIN_VALUE,
                  Integer.MAX_VALUE);
      case LONG ->
          Stream.of(
              Instant.parse("1989-12-31T23:59:59.999Z"),
              Instant.parse("2101-01-01T00:00:00Z"),
              Instant.ofEpochMilli(Long.MIN_VALUE),
              Instant.ofEpochMilli(Long.MAX_VALUE));
      default -> throw new IllegalStateException("A number of type " + schema.getType());
    };
  }

  private static Double[] box(double[] values) {
    return java.util.Arrays.stream(values).boxed().toArray(Double[]::new);
  }

  private static double limit(Schema schema, String name) {
    assertThat(schema.getObjectProp(name)).as(name + " of " + schema).isInstanceOf(Number.class);
    return ((Number) schema.getObjectProp(name)).doubleValue();
  }

  private static int whole(Schema schema, String name) {
    double limit = limit(schema, name);
    assertThat(limit).isEqualTo(Math.rint(limit));
    return (int) limit;
  }

  private static boolean isDate(Schema schema) {
    return schema.getLogicalType() instanceof LogicalTypes.Date;
  }

  private static boolean isNumber(Schema schema) {
    return switch (schema.getType()) {
      case INT, LONG, FLOAT, DOUBLE -> true;
      default -> false;
    };
  }

  private static List<Place> numbersOf(Schema schema, IndexedRecord branch, String path) {
    List<Place> places = new ArrayList<>();
    for (Schema.Field field : schema.getFields()) {
      Schema plain = plain(field.schema());
      Object value = branch.get(field.pos());
      String at = new FieldPath(path, "", "").to(schema, field.name()).path();
      if (isNumber(plain)) {
        places.add(new Place(at, plain, put -> branch.put(field.pos(), put)));
      } else if (value instanceof IndexedRecord inner) {
        places.addAll(numbersOf(plain, inner, at));
      } else if (value instanceof List<?> elements && !elements.isEmpty()) {
        Schema element = plain.getElementType();
        assertThat(isNumber(element)).as("a list of bare numbers at " + at).isFalse();
        if (elements.get(0) instanceof IndexedRecord inner) {
          places.addAll(numbersOf(element, inner, at + "[0]"));
        }
      }
    }
    return places;
  }

  /** A value with everything in it that may be there, each number the least that is allowed. */
  private static Object least(Schema schema) {
    return switch (schema.getType()) {
      case UNION -> least(plain(schema));
      case RECORD -> {
        IndexedRecord made = (IndexedRecord) SpecificData.get().newRecord(null, schema);
        schema.getFields().forEach(field -> made.put(field.pos(), least(field.schema())));
        yield made;
      }
      case ARRAY -> {
        int size = schema.getObjectProp("minItems") instanceof Number least ? least.intValue() : 1;
        yield new ArrayList<>(
            IntStream.range(0, size).mapToObj(n -> least(schema.getElementType())).toList());
      }
      case ENUM -> SpecificData.get().createEnum(schema.getEnumSymbols().get(0), schema);
      case BOOLEAN -> false;
      case STRING -> "X";
      default -> within(schema).get(0);
    };
  }

  private static Schema plain(Schema schema) {
    return schema.getType() == Schema.Type.UNION ? FieldLimits.branchOf(schema) : schema;
  }

  /** Each figure can be within its limits and the two together be no rye. */
  @Test
  void kernelsWeighWhatKernelsOfRyeWeigh() {
    assertThat(FactChecks.check(weighed(100, 0.5))).isEmpty();
    assertThat(FactChecks.check(weighed(100, 10))).isEmpty();
    assertThat(FactChecks.check(weighed(10_000, 1000))).isEmpty();

    assertThat(FactChecks.check(weighed(100, Math.nextDown(0.5))))
        .singleElement()
        .isEqualTo(
            Problem.of(
                "replicates[0].massG",
                Math.nextDown(0.5),
                new NumberProblem.KernelWeight(
                    Amount.grams(0.5), Amount.grams(10), 100, Amount.grams(5), Amount.grams(100))));
    assertThat(FactChecks.check(weighed(100, Math.nextUp(10)))).hasSize(1);
    assertThat(FactChecks.check(weighed(10_000, 3))).hasSize(1);
  }

  private static SpecificRecord weighed(int kernels, double massG) {
    KernelWeightTest test = (KernelWeightTest) least(FactType.KERNEL_WEIGHT_TEST.schema());
    test.getHeader().put("correction", null);
    test.put("replicates", List.of(new WeighedKernels(kernels, massG)));
    return test;
  }
}
