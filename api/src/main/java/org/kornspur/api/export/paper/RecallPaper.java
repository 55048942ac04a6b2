package org.kornspur.api.export.paper;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.StreamingOutput;
import java.util.List;
import java.util.Map;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.recall.RecallDrills;
import org.kornspur.api.query.recall.RecallView;
import org.kornspur.api.query.recall.TraceWords;
import org.kornspur.ingest.contract.Subject;

/** Prints recall drills. */
@RequestScoped
public class RecallPaper {
  @Inject RequestWords requestWords;
  @Inject RecallDrills drills;

  /** What the paper on a drill shows. */
  public record Printed(
      Subject subject,
      RecallView result,
      List<TraceWords.Move> back,
      List<TraceWords.Move> forward) {}

  @CheckedTemplate(basePath = "paper")
  static class Templates {
    static native TemplateInstance recall(PaperFrame page, Printed drill, TraceWords words);
  }

  /** The drill as PDF, made when it is written. */
  StreamingOutput print(Subject lot, Map<String, Double> countedStockKg) {
    RecallView result = drills.drill(lot, countedStockKg);
    TraceWords words = TraceWords.of(requestWords);
    Printed printed =
        new Printed(lot, result, words.moves(result.back()), words.moves(result.forward()));
    String page =
        requestWords.render(
            Templates.recall(PaperFrame.of(requestWords, result.asOf()), printed, words));
    return PdfRenderer.paper(page, List.of());
  }
}
