package org.kornspur.api.rest;

import jakarta.ws.rs.core.Application;
import org.eclipse.microprofile.openapi.annotations.Components;
import org.eclipse.microprofile.openapi.annotations.OpenAPIDefinition;
import org.eclipse.microprofile.openapi.annotations.info.Info;
import org.eclipse.microprofile.openapi.annotations.info.License;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.problem.ProblemJson;

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
    components =
        @Components(
            responses =
                @APIResponse(
                    name = "Problem",
                    description = "What is wrong, and what to do next (RFC 9457)",
                    content =
                        @Content(
                            mediaType = ProblemAnswer.MEDIA_TYPE,
                            schema = @Schema(implementation = ProblemJson.class)))))
public class OpenApi extends Application {}
