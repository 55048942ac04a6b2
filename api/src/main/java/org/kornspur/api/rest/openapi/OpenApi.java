package org.kornspur.api.rest.openapi;

import jakarta.ws.rs.core.Application;
import org.eclipse.microprofile.openapi.annotations.Components;
import org.eclipse.microprofile.openapi.annotations.OpenAPIDefinition;
import org.eclipse.microprofile.openapi.annotations.enums.SecuritySchemeIn;
import org.eclipse.microprofile.openapi.annotations.enums.SecuritySchemeType;
import org.eclipse.microprofile.openapi.annotations.info.Info;
import org.eclipse.microprofile.openapi.annotations.info.License;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.security.SecurityScheme;
import org.eclipse.microprofile.openapi.annotations.servers.Server;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.problem.ProblemJson;
import org.kornspur.api.security.login.Sessions;

/** What the OpenAPI document says of the interface as a whole. */
@OpenAPIDefinition(
    info =
        @Info(
            title = "Kornspur",
            version = "1",
            description =
                "Kornspur keeps hybrid rye seed pure from the inbred line to the bag, and proves"
                    + " it. Facts (sowings, field inspections, harvests, laboratory tests, blends,"
                    + " dispatches, post-control results) come in; each crop and lot is judged by"
                    + " the published standards that its production names; trouble passes to every"
                    + " descendant; any lot can be traced back to the breeder and forward to the"
                    + " customer. Standings inform: the certification authority decides.",
            license =
                @License(name = "Apache-2.0", url = "https://www.apache.org/licenses/LICENSE-2.0")),
    servers = @Server(url = "/", description = "The site that serves this document"),
    tags = {
      @Tag(name = "Access", description = "Logging in and out, and one's own account"),
      @Tag(name = "Acts", description = "What persons sign: release, suspend, condemn, downgrade"),
      @Tag(name = "Crops", description = "Crops in the field"),
      @Tag(name = "EPCIS", description = "Events in the form of GS1 EPCIS 2.0"),
      @Tag(name = "Exports", description = "Histories and lists in forms for others"),
      @Tag(name = "Facts", description = "Where facts come in, and what they look like"),
      @Tag(name = "Index", description = "What is here"),
      @Tag(name = "Labels", description = "What the label of a lot says"),
      @Tag(name = "Live", description = "The live stream of standings"),
      @Tag(name = "Log", description = "The sealed log, for auditors"),
      @Tag(name = "Lots", description = "Lots of seed"),
      @Tag(name = "Master data", description = "Hybrids, enterprises and pollen sources"),
      @Tag(name = "Operations", description = "Backups"),
      @Tag(name = "Owed", description = "Evidence that is owed"),
      @Tag(name = "Papers", description = "Dossiers and drills as PDF"),
      @Tag(name = "People", description = "Who may log in, and as what"),
      @Tag(name = "Problems", description = "Every kind of problem that this interface names"),
      @Tag(name = "Quarantine", description = "What was refused, and why"),
      @Tag(name = "Rulebooks", description = "The standards by which crops and lots are judged")
    },
    components =
        @Components(
            securitySchemes = {
              @SecurityScheme(
                  securitySchemeName = OpenApi.PASSWORD,
                  type = SecuritySchemeType.HTTP,
                  scheme = "basic",
                  description = "Person and password with each request, for programs"),
              @SecurityScheme(
                  securitySchemeName = OpenApi.COOKIE,
                  type = SecuritySchemeType.APIKEY,
                  in = SecuritySchemeIn.COOKIE,
                  apiKeyName = Sessions.COOKIE,
                  description =
                      "The cookie of POST /api/v1/session, for pages. A change that goes with it"
                          + " bears the csrfToken of the log-in in the header X-CSRF-Token"),
              @SecurityScheme(
                  securitySchemeName = OpenApi.TOKEN,
                  type = SecuritySchemeType.HTTP,
                  scheme = "bearer",
                  bearerFormat = "JWT",
                  description = "A token of the OpenID Connect provider, where the site names one")
            },
            responses =
                @APIResponse(
                    name = "Problem",
                    description = "What is wrong, and what to do next (RFC 9457)",
                    content =
                        @Content(
                            mediaType = ProblemAnswer.MEDIA_TYPE,
                            schema = @Schema(implementation = ProblemJson.class)))))
public class OpenApi extends Application {
  static final String PASSWORD = "password";
  static final String COOKIE = "cookie";
  static final String TOKEN = "token";
}
