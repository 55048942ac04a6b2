package org.kornspur.api.rest.openapi;

import org.eclipse.microprofile.openapi.OASFactory;
import org.eclipse.microprofile.openapi.models.media.Schema;
import org.eclipse.microprofile.openapi.models.responses.APIResponse;

/** References to what stands under {@code components}. */
final class References {
  private References() {}

  static Schema schema(String name) {
    return OASFactory.createSchema().ref("#/components/schemas/" + name);
  }

  static APIResponse response(String name) {
    return OASFactory.createAPIResponse().ref("#/components/responses/" + name);
  }
}
