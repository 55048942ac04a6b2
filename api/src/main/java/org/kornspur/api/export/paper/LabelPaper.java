package org.kornspur.api.export.paper;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.StreamingOutput;
import java.util.Base64;
import java.util.List;
import java.util.stream.IntStream;
import org.kornspur.api.export.LotLabels;
import org.kornspur.api.export.label.LabelContent;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.text.Language;

/**
 * Prints a sheet of labels for the bags of a lot: eight on a page, as self-adhesive sheets of 99.1
 * by 67.7 mm are cut. They are the multiplier's own and not official ones. Common practice, no
 * source.
 */
@RequestScoped
public class LabelPaper {
  static final int ON_A_PAGE = 8;
  static final int MOST_COPIES = 400;

  @Inject RequestWords requestWords;
  @Inject LotLabels labels;

  @CheckedTemplate(basePath = "paper")
  static class Templates {
    static native TemplateInstance labels(
        Language language, LabelContent content, String code, List<List<Integer>> pages);
  }

  /**
   * The sheet as PDF, made when it is written.
   *
   * @throws ApiProblem if the lot is not fit and released, or has no label
   */
  StreamingOutput print(String lotId, int copies) {
    String code =
        "data:image/png;base64," + Base64.getEncoder().encodeToString(labels.bareCode(lotId).png());
    return PdfRenderer.paper(
        requestWords.render(
            Templates.labels(requestWords.language(), labels.content(lotId), code, pages(copies))),
        List.of());
  }

  private static List<List<Integer>> pages(int copies) {
    return IntStream.range(0, (copies + ON_A_PAGE - 1) / ON_A_PAGE)
        .mapToObj(
            page ->
                IntStream.range(page * ON_A_PAGE, Math.min(copies, (page + 1) * ON_A_PAGE))
                    .boxed()
                    .toList())
        .toList();
  }
}
