package org.kornspur.ingest.registry;

import org.apache.avro.Schema;

/**
 * A registry in memory, for one process and its lifetime: the rules of {@link SchemaLedger} without
 * a server. Safe for several threads.
 */
public final class LocalSchemaRegistry implements SchemaRegistry {

  private final SchemaLedger ledger;

  /** An empty registry. */
  public LocalSchemaRegistry() {
    this(new SchemaLedger());
  }

  /** A registry that goes on from this ledger; nobody else may change it from then on. */
  public LocalSchemaRegistry(SchemaLedger ledger) {
    this.ledger = ledger;
  }

  @Override
  public synchronized int register(String subject, Schema schema) {
    SchemaLedger.Decision decision = ledger.decide(subject, schema);
    if (decision instanceof SchemaLedger.Incompatible refusal) {
      throw new IncompatibleSchema(subject, refusal.messages());
    }
    if (decision instanceof SchemaLedger.Addition addition) {
      ledger.apply(addition.entry());
      return addition.entry().id();
    }
    return ((SchemaLedger.Held) decision).entry().id();
  }

  @Override
  public synchronized int idOf(String subject, Schema schema) {
    return ledger
        .find(subject, schema)
        .map(SchemaLedger.Entry::id)
        .orElseThrow(() -> UnknownSchema.inSubject(subject, schema.getFullName()));
  }

  @Override
  public synchronized Schema byId(int id) {
    return ledger.byId(id).orElseThrow(() -> UnknownSchema.withId(id));
  }
}
