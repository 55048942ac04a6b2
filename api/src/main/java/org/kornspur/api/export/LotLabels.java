package org.kornspur.api.export;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import org.kornspur.api.export.label.LabelContent;
import org.kornspur.api.export.label.LabelRules;
import org.kornspur.api.export.label.LabelStatement;
import org.kornspur.api.export.label.LabelStatement.Standing;
import org.kornspur.api.export.label.QrCode;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ExportDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

/** What a label of a lot would have to say, and whether the lot may bear one. */
@RequestScoped
public class LotLabels {
  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  @Inject SiteIdentifiers site;
  @Inject VisibleData data;
  @Inject RequestWords requestWords;

  /**
   * The content, item by item.
   *
   * @throws ApiProblem if the caller sees no such lot, its seed is not known, or its rulebook has
   *     no rules on labels
   */
  public LabelContent content(String lotId) {
    StandingIndexRow row = row(lotId);
    Dossier dossier = processors.dossier(row.subject());
    Material material =
        dossier
            .material()
            .orElseThrow(() -> refused(new ExportDetail.SeedUnknown(Given.text(lotId, false))));
    LabelRules rules =
        LabelRules.forRulebook(material.rulebookId())
            .orElseThrow(
                () ->
                    refused(
                        new ExportDetail.NoLabelRules(
                            Given.text(lotId, false), material.rulebookId())));
    return LabelContent.of(
        rules, dossier, material, hindrance(row), site.identifiers().lotLink(lotId), words());
  }

  /**
   * The code that opens the lot's page, to stand alone.
   *
   * @throws ApiProblem if the lot is not fit and released
   */
  public QrCode bareCode(String lotId) {
    hindrance(row(lotId))
        .ifPresent(
            reason -> {
              throw refused(new ExportDetail.NoBarePicture(reason));
            });
    return code(lotId);
  }

  QrCode code(String lotId) {
    return new QrCode(site.identifiers().lotLink(lotId));
  }

  /** What must stand beside the code of a lot that may not be sold; else empty. */
  Optional<LabelStatement> warning(String lotId) {
    StandingIndexRow row = row(lotId);
    return maySell(row) ? Optional.empty() : Optional.of(new LabelStatement.Warning(standing(row)));
  }

  private static ApiProblem refused(ExportDetail why) {
    return new ApiProblem(ProblemKind.LABEL_REFUSED, why);
  }

  private StandingIndexRow row(String lotId) {
    Subject lot = Subject.lot(lotId);
    data.require(lot);
    return readModel.standings().row(lot).orElseThrow(() -> data.unknown(lot));
  }

  private static boolean maySell(StandingIndexRow row) {
    return row.state() == StandingState.FIT && row.release() == ReleaseStep.RELEASED;
  }

  private Optional<String> hindrance(StandingIndexRow row) {
    return maySell(row)
        ? Optional.empty()
        : Optional.of(
            String.join(
                " ",
                words().plain(new LabelStatement.Hindered(row.subject(), standing(row))),
                requestWords.firstReasons().reason(row.reason()),
                words().plain(new LabelStatement.NotToBeSold())));
  }

  private ReaderWords words() {
    return requestWords.words();
  }

  private static Standing standing(StandingIndexRow row) {
    return switch (row.state()) {
      case NOT_FIT -> Standing.NOT_FIT;
      case EVIDENCE_OWED -> Standing.EVIDENCE_OWED;
      case UNKNOWN -> Standing.UNKNOWN;
      case FIT ->
          switch (row.release()) {
            case RELEASED -> Standing.RELEASED;
            case NONE, PROPOSED, UNKNOWN -> Standing.NOT_RELEASED;
            case SUSPENDED -> Standing.SUSPENDED;
            case CONDEMNED -> Standing.CONDEMNED;
          };
    };
  }
}
