package org.kornspur.api.rest.openapi;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.URI;
import java.nio.file.Files;
import java.util.Map;
import org.kornspur.api.NpmPackages;
import org.kornspur.api.NpmScript;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;

/**
 * What npm packages say of the document: the linters Redocly and Spectral, and a client in
 * TypeScript that openapi-typescript makes of it.
 */
final class OpenApiPackages {
  private OpenApiPackages() {}

  static JsonNode check(JsonNode document, URI root) throws Exception {
    Files.writeString(NpmPackages.folder().resolve("openapi.json"), document.toString());
    return NpmScript.run(
        "openapi.mjs",
        Map.of("AUTHORIZATION", TestPeople.basic(AsPerson.EVERYTHING)),
        root.toString());
  }
}
