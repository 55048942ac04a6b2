package org.kornspur.api.web.record;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.form.CheckStep;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.FormView;
import org.kornspur.api.web.form.FormView.Section;

/**
 * A field of a form beside the one of the fact that it corrects.
 *
 * @param was as a person reads it; empty where it was empty, or there is nothing to compare with
 * @param is as it was typed now
 */
public record FieldComparison(String label, String was, String is, boolean changed) {

  /** Every field with something in it, before or now. */
  static List<FieldComparison> of(
      FormView<ContractForm> before,
      FormView<ContractForm> now,
      LocalFormat form,
      PageTexts texts) {
    Map<String, String> was = shown(before, form, texts);
    Map<String, String> is = shown(now, form, texts);
    Map<String, String> labels = new LinkedHashMap<>(labels(now));
    labels(before).forEach(labels::putIfAbsent);
    List<FieldComparison> all = new ArrayList<>();
    labels.forEach(
        (name, label) -> {
          String old = was.getOrDefault(name, "");
          String typed = is.getOrDefault(name, "");
          if (!old.isEmpty() || !typed.isEmpty()) {
            all.add(new FieldComparison(label, old, typed, !old.equals(typed)));
          }
        });
    return List.copyOf(all);
  }

  private static Map<String, String> shown(
      FormView<ContractForm> sheet, LocalFormat form, PageTexts texts) {
    Map<String, String> shown = new LinkedHashMap<>();
    sheet.fields().forEach(field -> shown.put(field.name(), CheckStep.shown(field, form, texts)));
    return shown;
  }

  private static Map<String, String> labels(FormView<ContractForm> sheet) {
    Map<String, String> labels = new LinkedHashMap<>();
    for (Section section : sheet.sections()) {
      int at = 0;
      for (Field field : section.fields()) {
        String label = field.label();
        if (section.isList()) {
          label = "%s %d: %s".formatted(section.legend(), at / section.columns() + 1, label);
        }
        labels.put(field.name(), label);
        at++;
      }
    }
    return labels;
  }
}
