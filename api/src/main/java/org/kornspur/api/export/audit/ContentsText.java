package org.kornspur.api.export.audit;

import java.time.Instant;
import java.util.List;
import org.kornspur.api.command.audit.AuditOrder;
import org.kornspur.api.command.audit.LotChoice;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;

/**
 * What is in a pack and how its lots were chosen. Lines of text begin with {@code #}; the others
 * are in the form that {@code sha256sum -c} takes.
 */
record ContentsText(PageTexts texts, LocalFormat form) {

  String of(AuditOrder order, List<Archive.Line> lines, List<String> notes) {
    StringBuilder text = new StringBuilder();
    say(text, texts.of("packTitle"));
    say(
        text,
        texts.of(
            "packMade",
            form.moment(Instant.now()),
            order.caller().printedName(),
            order.caller().personId()));
    choice(text, order);
    say(text, texts.of("packLots", form.count(order.lots().size())));
    order.lots().forEach(lot -> say(text, "  " + lot));
    if (!order.leftOut().isEmpty()) {
      say(text, texts.of("packLeftOut", String.join(", ", order.leftOut())));
    }
    notes.forEach(note -> say(text, note));
    say(text, texts.of("packCheck"));
    for (Archive.Line line : lines) {
      if (!line.about().isEmpty()) {
        say(text, line.path() + ": " + line.about());
      }
      text.append(line.sha256()).append("  ").append(line.path()).append('\n');
    }
    return text.toString();
  }

  private void choice(StringBuilder text, AuditOrder order) {
    LotChoice choice = order.choice();
    say(
        text,
        choice.ids().isEmpty()
            ? texts.of("packAmong", form.count(order.among()))
            : texts.of("packNamed", form.count(order.among())));
    choice.cropYear().ifPresent(year -> say(text, texts.of("packSeason", year)));
    choice.holder().ifPresent(holder -> say(text, texts.of("packGrower", holder)));
    choice
        .draw()
        .ifPresent(
            draw -> {
              say(text, texts.of("packDrawn", form.count(draw.size()), draw.seed()));
              say(text, texts.of("drawMethod"));
            });
  }

  private static void say(StringBuilder text, String line) {
    text.append("# ").append(line.replaceAll("\\R", " ")).append('\n');
  }
}
