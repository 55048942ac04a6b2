package org.kornspur.api.export;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
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
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

/** What a lot's label would have to say, and the code on it. */
@Path(Addresses.ROOT + "/lots")
@Tag(name = "Labels")
@APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
public class LabelResource {
  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  @Inject SiteIdentifiers site;
  @Inject VisibleData data;

  @Inject RequestWords requestWords;

  @GET
  @Path("{id}/label")
  @Produces(MediaType.APPLICATION_JSON)
  @RequiresPermission(Permission.EXPORT)
  @Operation(
      operationId = "lotLabel",
      summary = "What a label of this lot would have to say, and what is missing",
      description = "Not an official label: the certification authority issues those.")
  @APIResponse(responseCode = "200", description = "The content, item by item with its source")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public LabelContent content(@PathParam("id") String id) {
    StandingIndexRow row = row(id);
    Dossier dossier = processors.dossier(row.subject());
    Material material =
        dossier
            .material()
            .orElseThrow(() -> refused(new ExportDetail.SeedUnknown(Given.text(id, false))));
    LabelRules rules =
        LabelRules.forRulebook(material.rulebookId())
            .orElseThrow(
                () ->
                    refused(
                        new ExportDetail.NoLabelRules(
                            Given.text(id, false), material.rulebookId())));
    return LabelContent.of(
        rules, dossier, material, hindrance(row), link(id), requestWords.words());
  }

  @GET
  @Path("{id}/label.svg")
  @Produces("image/svg+xml")
  @RequiresPermission(Permission.EXPORT)
  @Operation(
      operationId = "lotLabelSvg",
      summary =
          "QR code that opens the lot's page; a lot that is not fit and released bears a warning")
  @APIResponse(responseCode = "200", description = "A drawing")
  public String svg(@PathParam("id") String id) {
    StandingIndexRow row = row(id);
    ReaderWords words = requestWords.words();
    List<String> lines = new ArrayList<>();
    lines.add(words.plain(new LabelStatement.OfLot(row.subject())));
    if (!maySell(row)) {
      lines.add(words.plain(new LabelStatement.Warning(standing(row))));
    }
    lines.add(words.plain(new LabelStatement.NotOfficialInShort()));
    return new QrCode(link(id)).svg(words.plain(new LabelStatement.CodeOf(row.subject())), lines);
  }

  @GET
  @Path("{id}/label.png")
  @Produces("image/png")
  @RequiresPermission(Permission.EXPORT)
  @Operation(
      operationId = "lotLabelPng",
      summary = "The code alone as a picture; refused for a lot that is not fit and released")
  @APIResponse(responseCode = "200", description = "A picture")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public byte[] png(@PathParam("id") String id) {
    hindrance(row(id))
        .ifPresent(
            reason -> {
              throw refused(new ExportDetail.NoBarePicture(reason));
            });
    return new QrCode(link(id)).png();
  }

  private static ApiProblem refused(ExportDetail why) {
    return new ApiProblem(ProblemKind.LABEL_REFUSED, why);
  }

  private StandingIndexRow row(String lotId) {
    Subject lot = Subject.lot(lotId);
    data.require(lot);
    return readModel.standings().row(lot).orElseThrow(() -> data.unknown(lot));
  }

  private String link(String lotId) {
    return site.identifiers().lotLink(lotId);
  }

  private static boolean maySell(StandingIndexRow row) {
    return row.state() == StandingState.FIT && row.release() == ReleaseStep.RELEASED;
  }

  private Optional<String> hindrance(StandingIndexRow row) {
    ReaderWords words = requestWords.words();
    return maySell(row)
        ? Optional.empty()
        : Optional.of(
            String.join(
                " ",
                words.plain(new LabelStatement.Hindered(row.subject(), standing(row))),
                requestWords.firstReasons().reason(row.reason()),
                words.plain(new LabelStatement.NotToBeSold())));
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
