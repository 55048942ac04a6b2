package org.kornspur.api.export;

import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.export.EventCapture.ErrorBehaviour;
import org.kornspur.api.export.epcis.EpcisDocuments;
import org.kornspur.api.export.epcis.EventQuery;
import org.kornspur.api.export.epcis.EventShape;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.api.http.ReadsQueryItself;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.HeaderProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;

/**
 * Capture and query of events.
 *
 * <p>Source: EPCIS 2.0, section 12 (REST bindings).
 */
@Path(Addresses.ROOT + "/epcis")
@Produces({EpcisResource.JSON_LD, MediaType.APPLICATION_JSON})
@Tag(name = "EPCIS")
@ReadsQueryItself
public class EpcisResource {
  static final String JSON_LD = "application/ld+json";
  private static final String ROOT = Addresses.ROOT + "/epcis";
  private static final String VERSION = "2.0.0";

  @Inject SiteVocabulary vocabulary;
  @Inject EventSearch events;
  @Inject EventCapture captures;
  private final Clock clock = Clock.systemUTC();

  @Context UriInfo uri;

  @POST
  @Path("capture")
  @Consumes({MediaType.APPLICATION_JSON, JSON_LD})
  @RequiresPermission(Permission.CAPTURE_EPCIS)
  @Operation(
      operationId = "captureEpcis",
      summary = "Capture an EPCIS 2.0 document",
      description =
          "Events of this program's making become the facts that they carry; events from elsewhere"
              + " become facts as far as they say enough: transformations and shipments of lots,"
              + " and lots that come into being with their master data. What is refused is kept in"
              + " the quarantine with its reasons. GS1-Capture-Error-Behaviour says whether the"
              + " rest goes in (proceed) or nothing (rollback, unless said otherwise).")
  @APIResponse(responseCode = "202", description = "Taken; Location is the capture job")
  public Response capture(
      @DefaultValue("rollback") @HeaderParam("GS1-Capture-Error-Behaviour") String behaviour,
      byte[] body)
      throws IOException {
    EventCapture.Job job = captures.capture(body, behaviour(behaviour));
    return Response.accepted()
        .location(URI.create(ROOT + "/capture/" + job.captureID()))
        .header("GS1-EPCIS-Version", VERSION)
        .build();
  }

  @GET
  @Path("capture/{captureID}")
  @Produces(MediaType.APPLICATION_JSON)
  @RequiresPermission(Permission.CAPTURE_EPCIS)
  @Operation(operationId = "getCaptureJob", summary = "What became of a captured document")
  @APIResponse(responseCode = "200", description = "The capture job")
  public EventCapture.Job job(@PathParam("captureID") String captureId) {
    return captures
        .job(captureId)
        .orElseThrow(
            () -> ApiProblem.notFound(new RecordDetail.NoCaptureJob(Given.text(captureId, false))));
  }

  @POST
  @Path("events")
  @Consumes({MediaType.APPLICATION_JSON, JSON_LD})
  @RequiresPermission(Permission.CAPTURE_EPCIS)
  @Operation(operationId = "captureEvent", summary = "Capture one event")
  @APIResponse(responseCode = "201", description = "It went in; Location is the event")
  @APIResponse(responseCode = "422", ref = "#/components/responses/Problem")
  public Response captureEvent(byte[] body) throws IOException {
    String eventId = captures.captureEvent(body);
    return Response.created(URI.create(ROOT + "/events/" + encoded(eventId)))
        .header("GS1-EPCIS-Version", VERSION)
        .build();
  }

  @GET
  @Path("events")
  @RequiresPermission(Permission.QUERY_EPCIS)
  @Operation(
      operationId = "queryEvents",
      summary = "Events, by event time",
      description =
          "eventType, EQ_action, EQ_bizStep, EQ_eventID, GE_eventTime, LT_eventTime,"
              + " GE_recordTime, LT_recordTime, MATCH_epc, MATCH_anyEPC, MATCH_epcClass,"
              + " MATCH_anyEPCClass and those of inputs and outputs, perPage, nextPageToken. Both a"
              + " wrong event, with its error declaration, and the one that corrects it are found."
              + " Tokens are encrypted to who does not see everything; follow Link as it stands.")
  @APIResponse(responseCode = "200", ref = "#/components/responses/EpcisDocument")
  public Response query() {
    return answer(new EventParameters(uri.getQueryParameters()));
  }

  @GET
  @Path("events/{eventID}")
  @RequiresPermission(Permission.QUERY_EPCIS)
  @Operation(operationId = "getEvent", summary = "One event")
  @APIResponse(responseCode = "200", ref = "#/components/responses/EpcisEvent")
  public Response event(@PathParam("eventID") String eventId) {
    ObjectNode event =
        EventId.uuidIn(eventId)
            .flatMap(events::event)
            .orElseThrow(
                () -> ApiProblem.notFound(new RecordDetail.NoEvent(Given.text(eventId, false))));
    return found(vocabulary.outward(EpcisDocuments.bareEvent(event))).build();
  }

  @GET
  @Path("eventTypes")
  @RequiresPermission(Permission.QUERY_EPCIS)
  @Operation(operationId = "listEventTypes", summary = "Types of event that occur here")
  @APIResponse(responseCode = "200", ref = "#/components/responses/EpcisCollection")
  public Response eventTypes() {
    return collection(shapes().map(shape -> shape.type().word()));
  }

  @GET
  @Path("eventTypes/{type}/events")
  @RequiresPermission(Permission.QUERY_EPCIS)
  @Operation(operationId = "queryEventsOfType", summary = "Events of one type")
  @APIResponse(responseCode = "200", ref = "#/components/responses/EpcisDocument")
  public Response eventsOfType(@PathParam("type") String type) {
    return answer(new EventParameters(uri.getQueryParameters()).with("eventType", type));
  }

  @GET
  @Path("bizSteps")
  @RequiresPermission(Permission.QUERY_EPCIS)
  @Operation(
      operationId = "listBizSteps",
      summary = "Business steps that occur here: words of the vocabulary, or addresses of our own")
  @APIResponse(responseCode = "200", ref = "#/components/responses/EpcisCollection")
  public Response bizSteps() {
    return collection(shapes().map(EventShape::bizStep));
  }

  @GET
  @Path("bizSteps/{bizStep}/events")
  @RequiresPermission(Permission.QUERY_EPCIS)
  @Operation(operationId = "queryEventsOfBizStep", summary = "Events of one business step")
  @APIResponse(responseCode = "200", ref = "#/components/responses/EpcisDocument")
  public Response eventsOfBizStep(@PathParam("bizStep") String bizStep) {
    return answer(new EventParameters(uri.getQueryParameters()).with("EQ_bizStep", bizStep));
  }

  @GET
  @Path("dispositions")
  @RequiresPermission(Permission.QUERY_EPCIS)
  @Operation(operationId = "listDispositions", summary = "Dispositions that occur here")
  @APIResponse(responseCode = "200", ref = "#/components/responses/EpcisCollection")
  public Response dispositions() {
    return collection(shapes().flatMap(shape -> shape.disposition().stream()));
  }

  private Response answer(EventParameters parameters) {
    EventQuery query = parameters.query(events, vocabulary);
    int perPage = parameters.perPage();
    Optional<List<UUID>> single = parameters.eventIds();
    if (single.isPresent()) {
      List<ObjectNode> found =
          single.get().stream().flatMap(id -> events.event(id).stream()).limit(perPage).toList();
      return found(vocabulary.outward(EpcisDocuments.queryDocument(found, clock.instant())))
          .build();
    }
    EventSearch.Page page = events.find(query, parameters.after(events), perPage);
    Response.ResponseBuilder answer =
        found(vocabulary.outward(EpcisDocuments.queryDocument(page.events(), clock.instant())));
    page.next()
        .ifPresent(
            next ->
                answer.header(
                    "Link",
                    "<%s>; rel=\"next\""
                        .formatted(
                            uri.getRequestUriBuilder()
                                .replaceQueryParam("nextPageToken", events.mark(next))
                                .build())));
    return answer.build();
  }

  private Response collection(Stream<String> members) {
    return found(
            vocabulary.outward(EpcisDocuments.collection(members.distinct().sorted().toList())))
        .build();
  }

  private static Response.ResponseBuilder found(ObjectNode document) {
    return Response.ok(document)
        .header("GS1-EPCIS-Version", VERSION)
        .header("GS1-CBV-Version", VERSION);
  }

  private static Stream<EventShape> shapes() {
    return Arrays.stream(FactType.values()).map(EventShape::of);
  }

  private static ErrorBehaviour behaviour(String header) {
    return switch (header) {
      case "rollback" -> ErrorBehaviour.ROLLBACK;
      case "proceed" -> ErrorBehaviour.PROCEED;
      default ->
          throw new ApiProblem(
              ProblemKind.INVALID_PARAMETER,
              Problem.of(
                  "GS1-Capture-Error-Behaviour", header, new HeaderProblem.NoErrorBehaviour()));
    };
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }
}
