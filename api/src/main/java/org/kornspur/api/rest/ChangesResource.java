package org.kornspur.api.rest;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.time.Duration;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.view.ChangeView;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.TopicPositions;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.visibility.CursorCipher;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.security.visibility.VisibilityService;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.FirstReasonWords;

/** The live stream of standing changes. */
@Path(Addresses.ROOT + "/changes")
@Tag(name = "Live")
public class ChangesResource {

  /** Half of the threads that answer requests; more readers need another instance. */
  private static final int MOST_LISTENERS = 100;

  /** A few open pages and a script or two. */
  private static final int MOST_OF_ONE_PERSON = 10;

  private static final Duration HEARTBEAT = Duration.ofSeconds(15);

  private final StreamReaderLimit places =
      new StreamReaderLimit(MOST_LISTENERS, MOST_OF_ONE_PERSON);
  @Inject ReadModel readModel;
  @Inject ObjectMapper json;
  @Inject CurrentCaller caller;
  @Inject VisibilityService visibilityService;
  @Inject CursorCipher cursors;
  @Inject CurrentVertxRequest request;
  @Inject RequestWords requestWords;

  @GET
  @RequiresPermission(Permission.READ_CHANGES)
  @Produces(MediaType.SERVER_SENT_EVENTS)
  @Operation(
      operationId = "streamChanges",
      summary = "Standings as they change, as server-sent events",
      description =
          "Event 'standing' carries a change as JSON; its id says how far each partition of the"
              + " topic had been read: in clear (partition-offset, separated by dots) to who sees"
              + " everything, encrypted to all others. A reader that comes back with Last-Event-ID"
              + " hears what it missed; where that is no longer kept, or the id is none that it was"
              + " given, event 'reload' says that lists must be loaded again. A comment comes after"
              + " 15 seconds in which nothing else did. A reader that cannot follow is dropped. One"
              + " person has at most 10 readers at once, all together 100.")
  @APIResponse(
      responseCode = "200",
      description = "The stream; data of event 'standing' as below",
      content =
          @Content(
              mediaType = MediaType.SERVER_SENT_EVENTS,
              schema = @Schema(implementation = ChangeView.class)))
  public Response stream(
      @Parameter(description = "Id of the last event that was heard") @HeaderParam("Last-Event-ID")
          String lastEventId) {
    readModel.standings();
    Caller who = caller.get();
    Visibility visibility = visibilityService.visibility();
    Optional<TopicPositions> lastSeen = lastSeen(visibility, lastEventId);
    FirstReasonWords words = requestWords.firstReasons(() -> visibilityService.of(who));
    ChangeStream stream =
        new ChangeStream(
            readModel.changes(),
            json,
            new ChangeStream.Reader(
                places.take(who.personId()),
                lastSeen,
                change ->
                    visibilityService.shown(who, change, one -> ChangeView.of(one, words), json),
                positions ->
                    cursors.told(visibility, CursorCipher.Use.LIVE_STREAM, positions.toString()),
                HEARTBEAT));
    request.getCurrent().addEndHandler(ended -> stream.end());
    if (lastSeen.isEmpty() && lastEventId != null && !lastEventId.isBlank()) {
      // what is no position of ours cannot be gone on from
      stream.mustReload();
    }
    return Response.ok(stream).header(HttpHeaders.CACHE_CONTROL, "no-cache").build();
  }

  private Optional<TopicPositions> lastSeen(Visibility visibility, String lastEventId) {
    return Optional.ofNullable(lastEventId)
        .map(String::strip)
        .filter(id -> !id.isEmpty())
        .flatMap(id -> cursors.read(visibility, CursorCipher.Use.LIVE_STREAM, id))
        .flatMap(TopicPositions::parse);
  }
}
