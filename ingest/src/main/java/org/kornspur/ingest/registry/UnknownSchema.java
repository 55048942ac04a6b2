package org.kornspur.ingest.registry;

/** No such schema in the registry. Asking again does not help until somebody registers it. */
public final class UnknownSchema extends RegistryException {

  private UnknownSchema(String message) {
    super(message, null);
  }

  /** No schema has this id. */
  public static UnknownSchema withId(int id) {
    return new UnknownSchema(
        "No schema with id "
            + id
            + " in the registry. The bytes come from another registry or are no record in wire"
            + " format: have the sender check its schema.registry.url");
  }

  /** What has this id is no Avro schema, as in a registry that others use too. */
  public static UnknownSchema notAvro(int id, String type) {
    return new UnknownSchema(
        "Schema %s of the registry is no Avro schema but %s. Write facts in Avro"
            .formatted(id, type));
  }

  /** The subject does not hold this schema. */
  public static UnknownSchema inSubject(String subject, String recordName) {
    return new UnknownSchema(
        "Subject %s does not hold this schema of %s. Register it first, or set %s=true"
            .formatted(subject, recordName, RegistryConfig.AUTO_REGISTER));
  }
}
