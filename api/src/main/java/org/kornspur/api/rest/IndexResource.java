package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.Arrays;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.view.Notice;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.ReaderWords;

/** The way in: what is here. */
@Path("/")
@Tag(name = "Index")
public class IndexResource {

  /** An address and what it gives. */
  public record Place(String href, String what) {}

  @Inject RequestWords words;

  @GET
  @RequiresPermission(Permission.READ_INTERFACE)
  @Produces(MediaType.APPLICATION_JSON)
  @Operation(operationId = "listPlaces", summary = "What is here")
  public List<Place> json() {
    ReaderWords inLanguage = words.words();
    return Arrays.stream(Notice.Listed.values())
        .map(listed -> new Place(listed.href(), inLanguage.plain(new Notice.Place(listed))))
        .toList();
  }
}
