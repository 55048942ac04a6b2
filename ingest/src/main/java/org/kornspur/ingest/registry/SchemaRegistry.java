package org.kornspur.ingest.registry;

import org.apache.avro.Schema;

/**
 * Gives schemas their numbers. A subject is the place in which versions of one record follow each
 * other; the number is shared by every subject that holds the same schema.
 *
 * <p>Every method may throw {@link RegistryUnreachable}, after which the call may be made again, or
 * {@link RegistryRefused}, after which it may not.
 */
public interface SchemaRegistry {

  /**
   * Registers a schema, or finds it where it is registered already.
   *
   * @return its id, the same for the same schema
   * @throws IncompatibleSchema if data of an earlier version and of this one could not be read with
   *     each other's schema
   */
  int register(String subject, Schema schema);

  /**
   * The id of a schema that is registered already; registers nothing.
   *
   * @throws UnknownSchema if the subject does not hold the schema
   */
  int idOf(String subject, Schema schema);

  /**
   * The schema with this id.
   *
   * @throws UnknownSchema if there is none
   */
  Schema byId(int id);
}
