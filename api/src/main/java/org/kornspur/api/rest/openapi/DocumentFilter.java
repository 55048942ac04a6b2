package org.kornspur.api.rest.openapi;

import io.quarkus.smallrye.openapi.OpenApiFilter;
import java.math.BigDecimal;
import java.util.List;
import org.eclipse.microprofile.openapi.OASFactory;
import org.eclipse.microprofile.openapi.OASFilter;
import org.eclipse.microprofile.openapi.models.OpenAPI;
import org.eclipse.microprofile.openapi.models.Operation;
import org.eclipse.microprofile.openapi.models.PathItem;
import org.eclipse.microprofile.openapi.models.media.Schema;
import org.eclipse.microprofile.openapi.models.media.Schema.SchemaType;
import org.jboss.jandex.IndexView;
import org.kornspur.api.security.login.RoutePolicy;

/** Makes the document whole when the program is built: what no annotation of a resource says. */
@OpenApiFilter(stages = OpenApiFilter.RunStage.BUILD)
public class DocumentFilter implements OASFilter {
  private final IndexView index;

  public DocumentFilter(IndexView index) {
    this.index = index;
  }

  @Override
  public Schema filterSchema(Schema schema) {
    if (schema.getDefaultValue() instanceof String text && schema.getType() != null) {
      schema.setDefaultValue(typed(text, schema.getType()));
    }
    return Nulls.mend(schema);
  }

  /** JAX-RS gives defaults as text, of a number too. */
  private static Object typed(String text, List<SchemaType> types) {
    if (types.contains(SchemaType.INTEGER)) {
      return new BigDecimal(text);
    }
    return types.contains(SchemaType.BOOLEAN) ? Boolean.valueOf(text) : text;
  }

  @Override
  public void filterOpenAPI(OpenAPI document) {
    RequiredMembers.addTo(document, index);
    FactSchemas.addTo(document.getComponents());
    ProblemResponses problems = ProblemResponses.addedTo(document.getComponents());
    Examples examples = Examples.read();
    document
        .getPaths()
        .getPathItems()
        .forEach(
            (path, item) ->
                item.getOperations()
                    .forEach(
                        (method, operation) -> {
                          boolean needsLogIn =
                              !RoutePolicy.isOpen(path) || method == PathItem.HttpMethod.DELETE;
                          secure(operation, needsLogIn);
                          problems.addTo(path, operation, needsLogIn);
                          examples.addTo(operation);
                        }));
  }

  private static void secure(Operation operation, boolean needsLogIn) {
    operation.setSecurity(List.of());
    if (needsLogIn) {
      for (String scheme : List.of(OpenApi.PASSWORD, OpenApi.COOKIE, OpenApi.TOKEN)) {
        operation.addSecurityRequirement(
            OASFactory.createSecurityRequirement().addScheme(scheme, List.of()));
      }
    }
  }
}
