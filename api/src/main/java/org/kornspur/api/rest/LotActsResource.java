package org.kornspur.api.rest;

import jakarta.ws.rs.Path;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** What persons signed for a lot, and where they sign. */
@Path(Addresses.ROOT + "/lots")
public class LotActsResource extends ActsResource {
  @Override
  Subject subject(String id) {
    return Subject.lot(id);
  }
}
