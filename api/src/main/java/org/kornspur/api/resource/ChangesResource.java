package org.kornspur.api.resource;

import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.access.Action;
import org.kornspur.api.access.CurrentCaller;
import org.kornspur.api.access.Needs;
import org.kornspur.api.border.Border;
import org.kornspur.api.engine.NotReady;
import org.kornspur.api.feed.Feeds;
import org.kornspur.api.feed.Positions;
import org.kornspur.api.feed.StandingChange;
import org.kornspur.api.view.Addresses;

/** The live stream of standing changes. */
@Path(Addresses.ROOT + "/changes")
@Tag(name = "Live")
public class ChangesResource {

  /** Half of the threads that answer requests; more readers need another instance. */
  private static final int MOST_LISTENERS = 100;

  private final Feeds feeds;
  private final ObjectMapper json;
  private final CurrentCaller caller;
  private final Border border;

  @Inject
  public ChangesResource(Feeds feeds, ObjectMapper json, CurrentCaller caller, Border border) {
    this.feeds = feeds;
    this.caller = caller;
    this.border = border;
    this.json = json;
  }

  @GET
  @Needs(Action.READ_CHANGES)
  @Produces(MediaType.SERVER_SENT_EVENTS)
  @Operation(
      operationId = "streamChanges",
      summary = "Standings as they change, as server-sent events",
      description =
          "Event 'standing' carries a change as JSON; its id says how far each partition of the"
              + " topic had been read (partition-offset, parted by dots). A reader that comes back"
              + " with Last-Event-ID hears what it missed; where that is no longer kept, event"
              + " 'reload' says that lists must be loaded anew. A comment comes every 15 seconds. A"
              + " reader that cannot follow is dropped.")
  @APIResponse(
      responseCode = "200",
      description = "The stream; data of event 'standing' as below",
      content =
          @Content(
              mediaType = MediaType.SERVER_SENT_EVENTS,
              schema = @Schema(implementation = StandingChange.class)))
  @APIResponse(responseCode = "503", ref = "#/components/responses/Problem")
  public Response stream(
      @Parameter(description = "Id of the last event that was heard") @HeaderParam("Last-Event-ID")
          String lastEventId) {
    if (feeds.changes().listeners() >= MOST_LISTENERS) {
      throw new NotReady("The live stream has " + MOST_LISTENERS + " readers, the most.", 30);
    }
    feeds.standings();
    Optional<Positions> lastSeen = lastSeen(lastEventId);
    ChangeStream stream =
        new ChangeStream(feeds.changes(), lastSeen, json, border.changesOf(caller.get()));
    if (lastSeen.isEmpty() && lastEventId != null && !lastEventId.isBlank()) {
      // what is no position of ours cannot be gone on from
      stream.mustReload();
    }
    return Response.ok(stream).header(HttpHeaders.CACHE_CONTROL, "no-cache").build();
  }

  private static Optional<Positions> lastSeen(String lastEventId) {
    return lastEventId == null || lastEventId.isBlank()
        ? Optional.empty()
        : Positions.parse(lastEventId.strip());
  }
}
