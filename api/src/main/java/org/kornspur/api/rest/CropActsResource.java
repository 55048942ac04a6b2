package org.kornspur.api.rest;

import jakarta.ws.rs.Path;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** What persons signed for a crop, and where they sign. */
@Path(Addresses.ROOT + "/crops")
public class CropActsResource extends ActsResource {
  @Override
  Subject subject(String id) {
    return Subject.crop(id);
  }
}
