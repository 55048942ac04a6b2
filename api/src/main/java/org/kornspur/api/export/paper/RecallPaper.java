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

  @CheckedTemplate(basePath = "paper")
  static class Templates {
    static native TemplateInstance recall(
        PaperFrame page, Subject subject, RecallView result, TraceWords words);
  }

  /** The drill as PDF, made when it is written. */
  StreamingOutput print(Subject lot, Map<String, Double> countedStockKg) {
    RecallView result = drills.drill(lot, countedStockKg);
    String page =
        requestWords.render(
            Templates.recall(
                PaperFrame.of(requestWords, result.asOf()),
                lot,
                result,
                TraceWords.of(requestWords)));
    return PdfRenderer.paper(page, List.of());
  }
}
