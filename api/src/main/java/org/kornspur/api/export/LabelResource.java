package org.kornspur.api.export;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.Optional;
import java.util.stream.Stream;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.export.label.LabelContent;
import org.kornspur.api.export.label.LabelStatement;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** What a lot's label would have to say, and the code on it. */
@Path(Addresses.ROOT + "/lots")
@Tag(name = "Labels")
public class LabelResource {
  @Inject LotLabels labels;
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
    return labels.content(id);
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
    Subject lot = Subject.lot(id);
    Optional<LabelStatement> warning = labels.warning(id);
    return labels
        .code(id)
        .svg(
            words(new LabelStatement.CodeOf(lot)),
            Stream.of(
                    Stream.of(new LabelStatement.OfLot(lot)),
                    warning.stream(),
                    Stream.of(new LabelStatement.NotOfficialInShort()))
                .<LabelStatement>flatMap(lines -> lines)
                .map(this::words)
                .toList());
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
    return labels.bareCode(id).png();
  }

  private String words(LabelStatement statement) {
    return requestWords.words().plain(statement);
  }
}
