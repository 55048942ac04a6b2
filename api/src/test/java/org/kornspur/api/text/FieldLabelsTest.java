package org.kornspur.api.text;

import static java.beans.Introspector.decapitalize;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.apache.avro.Schema;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FieldLimits;

/** Held against the contract itself: what a person says has a name, and nothing else has. */
class FieldLabelsTest {

  /** What the server writes. */
  private static final Set<String> BY_THE_SERVER = Set.of("submission", "signature", "attestation");

  /** How a unit of the contract ends a name; a number of things counted says it by its name. */
  private static final Map<String, Pattern> UNITS =
      Map.of(
          "kg", Pattern.compile(".*, kg"),
          "g", Pattern.compile(".*, g"),
          "%", Pattern.compile(".*, %"),
          "ha", Pattern.compile(".*, ha"),
          "m2", Pattern.compile(".*, m²"),
          "BBCH", Pattern.compile(".*, BBCH"),
          "deg", Pattern.compile(".*, (degrees|Grad)"),
          "percentage points", Pattern.compile(".*, (percentage points|Prozentpunkte)"));

  @ParameterizedTest
  @EnumSource(Language.class)
  void whatAPersonMayFillInHasANameWithItsUnitAndNothingElseHas(Language language) {
    FieldLabels labels = FieldLabels.in(language);
    Set<String> unused = new TreeSet<>(labels.keys());
    records()
        .forEach(
            (name, schema) ->
                schema.getFields().stream()
                    .filter(field -> !BY_THE_SERVER.contains(field.name()))
                    .filter(field -> !Set.of("header", "correction").contains(field.name()))
                    .forEach(
                        field -> {
                          String label = labels.of(schema, field.name());
                          assertThat(label).as(name + "." + field.name()).isNotBlank();
                          String unit = FieldLimits.branchOf(field.schema()).getProp("unit");
                          if (unit != null && UNITS.containsKey(unit)) {
                            assertThat(label).as(name).matches(UNITS.get(unit));
                          }
                          unused.remove(field.name());
                          unused.remove(name + "." + field.name());
                        }));

    assertThat(unused).isEmpty();
  }

  @ParameterizedTest
  @EnumSource(Language.class)
  void noTwoFieldsOfAFactHaveOneName(Language language) {
    FieldLabels labels = FieldLabels.in(language);
    records()
        .values()
        .forEach(
            schema -> {
              Set<String> seen = new HashSet<>();
              schema.getFields().stream()
                  .filter(field -> !BY_THE_SERVER.contains(field.name()))
                  .filter(field -> !Set.of("header", "correction").contains(field.name()))
                  .forEach(
                      field ->
                          assertThat(seen.add(labels.of(schema, field.name())))
                              .as(schema.getName() + "." + field.name())
                              .isTrue());
            });
  }

  private static Map<String, Schema> records() {
    Map<String, Schema> found = new LinkedHashMap<>();
    Arrays.stream(FactType.values()).forEach(type -> add(type.schema(), found));
    return found;
  }

  private static void add(Schema schema, Map<String, Schema> found) {
    Schema branch = FieldLimits.branchOf(schema);
    switch (branch.getType()) {
      case ARRAY -> add(branch.getElementType(), found);
      case RECORD -> {
        if (!BY_THE_SERVER.contains(decapitalize(branch.getName()))
            && found.putIfAbsent(branch.getName(), branch) == null) {
          branch.getFields().forEach(field -> add(field.schema(), found));
        }
      }
      default -> {}
    }
  }
}
