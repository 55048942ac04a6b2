package org.kornspur.api.command.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.junit.jupiter.api.Test;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.plan.PlanDefinition.Wanted;
import org.kornspur.api.text.Language;

/** Tables as people make them; a workbook is written by a library of its own. */
class DemandTableTest {

  @Test
  void aTextIsReadByTheCustomsOfItsLanguage() throws IOException {
    assertThat(read("Hybride;Ernte;Tonnen;Hoch\nH-1;2027;1200,5;1500\n\nH-2;2028;;\n"))
        .containsExactly(new Wanted("H-1", 2027, null, 1200.5, 1500.0, null));
  }

  @Test
  void aWorkbookHasNumbers() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (Workbook workbook = new Workbook(out, "test", "1.0")) {
      Worksheet sheet = workbook.newWorksheet("Demand");
      List<String> header = List.of("Hybrid", "Harvest", "Tonnes (t)", "Weight");
      for (int column = 0; column < header.size(); column++) {
        sheet.value(0, column, header.get(column));
      }
      sheet.value(1, 0, "H-1");
      sheet.value(1, 1, 2027);
      sheet.value(1, 2, 80.5);
      sheet.value(1, 3, 2);
    }
    assertThat(DemandTable.read("demand.xlsx", out.toByteArray(), Language.ENGLISH))
        .containsExactly(new Wanted("H-1", 2027, null, 80.5, null, 2.0));
  }

  @Test
  void whatCannotBeReadNamesItsRowAndColumn() {
    assertThatThrownBy(() -> read("Hybride;Tonnen\nH-1;12\n")).isInstanceOf(ApiProblem.class);
    assertThatThrownBy(() -> read("Hybride;Ernte;Tonnen\nH-1;2027;viel\n"))
        .isInstanceOf(ApiProblem.class);
    assertThatThrownBy(() -> read("Hybride;Ernte;Tonnen\nH-1;2027,5;3\n"))
        .isInstanceOf(ApiProblem.class);
  }

  private static List<Wanted> read(String text) throws IOException {
    return DemandTable.read("bedarf.csv", text.getBytes(StandardCharsets.UTF_8), Language.GERMAN);
  }
}
