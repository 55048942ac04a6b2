package org.kornspur.api.command.table;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Role;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.DetectedTable;

class RememberedColumnsTest {
  private static final Map<String, String> SAID = Map.of("Gewicht netto", "massKg", "Notiz", "");

  @TempDir Path folder;

  @Test
  void whatWasSaidHoldsForColleaguesAndAfterARestart() {
    kept().keep(person("p-1", "ENT-1"), table(FactType.HARVEST, "massKg", ""), SAID);

    assertThat(kept().of(person("p-2", "ENT-1"), table(FactType.HARVEST))).isEqualTo(SAID);
  }

  @Test
  void itHoldsForNoOtherEnterpriseAndNoOtherKind() {
    RememberedColumns columns = kept();
    columns.keep(person("p-1", "ENT-1"), table(FactType.HARVEST, "massKg", ""), SAID);

    assertThat(columns.of(person("p-1", "ENT-2"), table(FactType.HARVEST))).isEmpty();
    assertThat(columns.of(person("p-1", null), table(FactType.HARVEST))).isEmpty();
    assertThat(columns.of(person("p-1", "ENT-1"), table(FactType.DISPATCH))).isEmpty();
  }

  @Test
  void aColumnWhoseNameIsOfAFieldIsNotReadOtherwise() {
    RememberedColumns columns = kept();
    columns.keep(person("p-1", "ENT-1"), table(FactType.HARVEST, "massKg", ""), SAID);

    assertThat(columns.of(person("p-1", "ENT-1"), table(FactType.HARVEST, "massKg", ""))).isEmpty();
  }

  @Test
  void aFileThatCannotBeReadIsForgotten() throws Exception {
    Files.writeString(folder.resolve("columns.json"), "[{");

    assertThat(kept().of(person("p-1", "ENT-1"), table(FactType.HARVEST))).isEmpty();
  }

  private RememberedColumns kept() {
    return new RememberedColumns(folder.resolve("columns.json"), new ObjectMapper());
  }

  /** A table with both columns, which nobody knows. */
  private static DetectedTable table(FactType kind) {
    return table(
        kind,
        List.of(
            new DetectedTable.Column(0, "Gewicht netto", Optional.empty(), false, true),
            new DetectedTable.Column(1, "Notiz", Optional.empty(), false, true)));
  }

  /** The same with both said, an empty path of one that is left out. */
  private static DetectedTable table(FactType kind, String first, String second) {
    return table(
        kind,
        List.of(
            new DetectedTable.Column(0, "Gewicht netto", Optional.of(first), false, true),
            new DetectedTable.Column(1, "Notiz", Optional.empty(), second.isEmpty(), true)));
  }

  private static DetectedTable table(FactType kind, List<DetectedTable.Column> columns) {
    return new DetectedTable(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        ZoneOffset.UTC,
        List.of(new DetectedTable.Sheet("", kind, List.of(), columns)),
        List.of());
  }

  private static Caller person(String personId, String enterpriseId) {
    return new Caller(
        personId,
        "Invented",
        Set.of(Role.MULTIPLIER),
        Optional.ofNullable(enterpriseId),
        Caller.Proof.SESSION,
        Optional.empty());
  }
}
