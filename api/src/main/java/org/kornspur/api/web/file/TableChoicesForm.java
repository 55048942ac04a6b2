package org.kornspur.api.web.file;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.command.table.TableChoices;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.DayOrder;
import org.kornspur.ingest.file.DecimalMark;

/** Reads what a person said of a table from the form of its page. */
final class TableChoicesForm {
  /** Says that a column is not to be read. */
  static final String LEFT_OUT = "-";

  private TableChoicesForm() {}

  static TableChoices read(FormFields form) {
    List<String> columns = form.all("column");
    List<String> fields = form.all("field");
    Map<String, String> paths = new HashMap<>();
    for (int at = 0; at < Math.min(columns.size(), fields.size()); at++) {
      if (!fields.get(at).isEmpty()) {
        paths.put(columns.get(at), fields.get(at).equals(LEFT_OUT) ? "" : fields.get(at));
      }
    }
    return new TableChoices(
        form.first("kind").flatMap(FactType::named).filter(type -> !type.isAct()),
        one(DecimalMark.values(), form.first("decimalMark")),
        one(DayOrder.values(), form.first("dayOrder")),
        paths);
  }

  private static <E extends Enum<E>> Optional<E> one(E[] constants, Optional<String> name) {
    return Arrays.stream(constants)
        .filter(constant -> name.filter(constant.name()::equals).isPresent())
        .findFirst();
  }
}
