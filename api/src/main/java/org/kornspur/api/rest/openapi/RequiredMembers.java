package org.kornspur.api.rest.openapi;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.eclipse.microprofile.openapi.models.OpenAPI;
import org.eclipse.microprofile.openapi.models.media.Schema;
import org.jboss.jandex.AnnotationInstance;
import org.jboss.jandex.AnnotationValue;
import org.jboss.jandex.ClassInfo;
import org.jboss.jandex.IndexView;
import org.jboss.jandex.RecordComponentInfo;
import org.jboss.jandex.Type;

/**
 * The members that an answer always has: all of its record, which is written whole unless it says
 * otherwise. Of what is sent in as well nothing is said here; whoever sends may leave out more.
 */
final class RequiredMembers {
  private final Map<String, List<ClassInfo>> records;
  private final Map<String, Schema> schemas;

  RequiredMembers(IndexView index, OpenAPI document) {
    records =
        index.getKnownClasses().stream()
            .filter(ClassInfo::isRecord)
            .collect(Collectors.groupingBy(RequiredMembers::name));
    schemas = document.getComponents().getSchemas();
  }

  static void addTo(OpenAPI document, IndexView index) {
    new RequiredMembers(index, document).addTo(document);
  }

  private void addTo(OpenAPI document) {
    Set<String> sent = new HashSet<>();
    document.getPaths().getPathItems().values().stream()
        .flatMap(item -> item.getOperations().values().stream())
        .map(operation -> operation.getRequestBody())
        .filter(Objects::nonNull)
        .flatMap(body -> body.getContent().getMediaTypes().values().stream())
        .forEach(media -> reach(media.getSchema(), sent));
    schemas.forEach(
        (name, schema) -> {
          if (!sent.contains(name) && schema.getProperties() != null) {
            record(name, schema).ifPresent(found -> schema.setRequired(always(found)));
          }
        });
  }

  /** Two records of one name are told apart by their members. */
  private Optional<ClassInfo> record(String name, Schema schema) {
    return Stream.of(name, name.replaceAll("\\d+$", ""), name.replaceAll("^PageView.*", "PageView"))
        .flatMap(known -> records.getOrDefault(known, List.of()).stream())
        .filter(found -> members(found).equals(schema.getProperties().keySet()))
        .findFirst();
  }

  private static Set<String> members(ClassInfo record) {
    return record.recordComponents().stream()
        .map(RecordComponentInfo::name)
        .collect(Collectors.toSet());
  }

  private static List<String> always(ClassInfo record) {
    AnnotationInstance include = record.declaredAnnotation(JsonInclude.class);
    boolean isWhole = include == null || include.value().asEnum().equals("ALWAYS");
    List<String> always =
        record.recordComponents().stream()
            .filter(member -> isWhole || member.type().kind() == Type.Kind.PRIMITIVE)
            .filter(member -> !record.field(member.name()).hasAnnotation(JsonInclude.class))
            .map(RecordComponentInfo::name)
            .toList();
    return always.isEmpty() ? null : always;
  }

  private static String name(ClassInfo record) {
    return Optional.ofNullable(
            record.declaredAnnotation(
                org.eclipse.microprofile.openapi.annotations.media.Schema.class))
        .map(schema -> schema.value("name"))
        .map(AnnotationValue::asString)
        .orElse(record.simpleName());
  }

  private void reach(Schema schema, Set<String> reached) {
    if (schema == null) {
      return;
    }
    if (schema.getRef() != null) {
      String name = schema.getRef().substring(schema.getRef().lastIndexOf('/') + 1);
      if (reached.add(name)) {
        reach(schemas.get(name), reached);
      }
    }
    reach(schema.getItems(), reached);
    reach(schema.getAdditionalPropertiesSchema(), reached);
    Stream.of(schema.getAnyOf(), schema.getOneOf(), schema.getAllOf())
        .filter(Objects::nonNull)
        .flatMap(Collection::stream)
        .forEach(part -> reach(part, reached));
    if (schema.getProperties() != null) {
      schema.getProperties().values().forEach(member -> reach(member, reached));
    }
  }
}
