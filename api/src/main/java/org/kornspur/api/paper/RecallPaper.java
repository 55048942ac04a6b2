package org.kornspur.api.paper;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.StreamingOutput;
import java.util.List;
import java.util.Map;
import org.kornspur.api.page.Frame;
import org.kornspur.api.page.Framing;
import org.kornspur.api.page.NavigationItem;
import org.kornspur.api.page.audit.TraceMessages;
import org.kornspur.api.page.audit.TraceWords;
import org.kornspur.api.recall.RecallDesk;
import org.kornspur.api.recall.RecallView;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.ingest.contract.Subject;

/** Prints recall drills. */
@RequestScoped
public class RecallPaper {
  private final Framing framing;
  private final RecallDesk desk;

  @Inject
  public RecallPaper(Framing framing, RecallDesk desk) {
    this.framing = framing;
    this.desk = desk;
  }

  /** What the paper on a drill shows. */
  public record Printed(
      Subject subject,
      RecallView result,
      List<TraceWords.Move> back,
      List<TraceWords.Move> forward) {}

  @CheckedTemplate(basePath = "paper")
  static class Templates {
    static native TemplateInstance recall(Frame page, Printed drill, TraceWords words);
  }

  /** The drill as PDF, made when it is written. */
  StreamingOutput print(Subject lot, Map<String, Double> countedStockKg) {
    RecallView result = desk.drill(lot, countedStockKg);
    TraceWords words =
        new TraceWords(
            framing.texts(TraceMessages.class), framing.form(), DomainTerms.in(framing.language()));
    Printed printed =
        new Printed(lot, result, words.moves(result.back()), words.moves(result.forward()));
    String page =
        framing.render(
            Templates.recall(framing.around(NavigationItem.TRACE, result.asOf()), printed, words));
    return PdfRenderer.paper(page, List.of());
  }
}
