package org.kornspur.api.kafka.embedded;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.ingest.registry.SchemaLedger;

/** What the registry answers of the versions of its subjects. */
final class RegistryVersions {
  private static final String LATEST = "latest";

  private RegistryVersions() {}

  /**
   * Answers what is asked below the versions of a subject.
   *
   * @param path subjects, the subject, versions; then a version or latest; then schema
   */
  static RegistryAnswer of(EmbeddedRegistry registry, List<String> path) {
    String subject = path.get(1);
    return registry.asked(
        ledger -> {
          List<SchemaLedger.Entry> versions = ledger.versions(subject);
          if (versions.isEmpty()) {
            return RegistryAnswer.noSubject(subject);
          }
          return path.size() == 3
              ? RegistryAnswer.list(versions.stream().map(SchemaLedger.Entry::version).toList())
              : one(versions, path);
        });
  }

  private static RegistryAnswer one(List<SchemaLedger.Entry> versions, List<String> path) {
    String asked = path.get(3);
    if (!asked.equals(LATEST) && !asked.matches("[1-9]\\d{0,8}")) {
      return RegistryAnswer.invalidVersion(asked);
    }
    boolean wantsText = path.size() == 5 && path.get(4).equals("schema");
    if (path.size() > 4 && !wantsText) {
      return RegistryAnswer.error(404, 404, "A version has no " + path.get(4));
    }
    return versions.stream()
        .filter(entry -> asked.equals(LATEST) || asked.equals("" + entry.version()))
        .reduce((earlier, later) -> later)
        .map(entry -> wantsText ? RegistryAnswer.text(entry) : RegistryAnswer.entry(entry))
        .orElseGet(() -> RegistryAnswer.noVersion(path.get(1), asked));
  }

  /**
   * Which subjects hold a schema.
   *
   * @param what subjects, or versions for them with their numbers
   * @return empty where it is neither
   */
  static Optional<RegistryAnswer> holding(EmbeddedRegistry registry, int id, String what) {
    if (!what.equals("subjects") && !what.equals("versions")) {
      return Optional.empty();
    }
    return Optional.of(
        registry.asked(
            ledger -> {
              List<SchemaLedger.Entry> places = ledger.places(id);
              if (places.isEmpty()) {
                return RegistryAnswer.noSchema("No schema has id " + id);
              }
              return RegistryAnswer.list(
                  what.equals("subjects")
                      ? places.stream().map(SchemaLedger.Entry::subject).toList()
                      : places.stream()
                          .map(at -> Map.of("subject", at.subject(), "version", at.version()))
                          .toList());
            }));
  }
}
