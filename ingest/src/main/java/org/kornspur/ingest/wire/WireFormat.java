package org.kornspur.ingest.wire;

import java.io.ByteArrayOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.avro.AvroRuntimeException;
import org.apache.avro.Schema;
import org.apache.avro.generic.GenericDatumReader;
import org.apache.avro.io.BinaryDecoder;
import org.apache.avro.io.BinaryEncoder;
import org.apache.avro.io.DecoderFactory;
import org.apache.avro.io.EncoderFactory;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificDatumReader;
import org.apache.avro.specific.SpecificDatumWriter;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.registry.SchemaRegistry;
import org.kornspur.ingest.registry.UnknownSchema;

/**
 * Records as bytes: one zero byte, the id of the writer's schema as four bytes with the high byte
 * first, then the record in Avro's binary encoding. The subject of a schema is the topic, a hyphen
 * and the full name of the record, so that one topic carries several types.
 *
 * <p>A record is read into the generated class of its name, whatever version of the schema it was
 * written with. Only classes under {@code org.kornspur} are ever loaded by name.
 *
 * <p>Safe for several threads.
 *
 * <p>Source: Confluent, "Formats, Serializers, and Deserializers for Schema Registry", wire format;
 * subject: the same, {@code TopicRecordNameStrategy}.
 */
public final class WireFormat {

  private static final byte MAGIC = 0;
  private static final int HEAD_BYTES = 5;
  private static final String OWN_NAMESPACE = "org.kornspur.";

  private final SchemaRegistry registry;
  private final boolean mayRegister;
  private final Map<Integer, Reading> readings = new ConcurrentHashMap<>();

  /** Kept for good, as a registered schema never changes its id. */
  private final Map<Writing, Integer> ids = new ConcurrentHashMap<>();

  private record Writing(String topic, Schema schema) {}

  /** How to read what was written with one schema. */
  private record Reading(Schema written, SpecificDatumReader<SpecificRecord> reader) {}

  /** A format that registers schemas which the registry does not hold yet. */
  public WireFormat(SchemaRegistry registry) {
    this(registry, true);
  }

  /**
   * @param mayRegister whether a schema that the registry does not hold is registered; if not,
   *     encoding fails with {@link UnknownSchema}
   */
  public WireFormat(SchemaRegistry registry, boolean mayRegister) {
    this.registry = registry;
    this.mayRegister = mayRegister;
  }

  /** The subject under which the schema of a record is registered. */
  public static String subject(String topic, Schema schema) {
    return topic + "-" + schema.getFullName();
  }

  /**
   * Writes a record for a topic.
   *
   * @throws IllegalArgumentException if the record lacks a value that its schema demands
   * @throws org.kornspur.ingest.registry.RegistryException if its schema gets no id
   */
  public byte[] encode(String topic, SpecificRecord record) {
    Schema schema = record.getSchema();
    int id = idOf(topic, schema);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    bytes.write(MAGIC);
    bytes.writeBytes(ByteBuffer.allocate(Integer.BYTES).putInt(id).array());
    BinaryEncoder encoder = EncoderFactory.get().directBinaryEncoder(bytes, null);
    try {
      new SpecificDatumWriter<SpecificRecord>(schema, SpecificData.getForSchema(schema))
          .write(record, encoder);
      encoder.flush();
    } catch (IOException | RuntimeException e) {
      throw new IllegalArgumentException(
          schema.getFullName() + " cannot be written for topic " + topic + ": " + e.getMessage(),
          e);
    }
    return bytes.toByteArray();
  }

  private int idOf(String topic, Schema schema) {
    Writing writing = new Writing(topic, schema);
    Integer known = ids.get(writing);
    if (known == null) {
      String subject = subject(topic, schema);
      known = mayRegister ? registry.register(subject, schema) : registry.idOf(subject, schema);
      ids.put(writing, known);
    }
    return known;
  }

  /**
   * Reads a record into its generated class.
   *
   * @throws NotWireFormat if the bytes are no such record
   * @throws UnknownSchema if the registry does not know the schema's id
   * @throws UnknownRecordType if the record is none of the project's types
   * @throws org.kornspur.ingest.registry.RegistryUnreachable if nothing can be said now; to be
   *     tried again
   */
  public SpecificRecord decode(byte[] bytes) {
    if (bytes.length < HEAD_BYTES) {
      throw new NotWireFormat(
          ("The value has %s bytes; wire format has at least %s. Write it with an Avro "
                  + "serializer that asks the schema registry")
              .formatted(bytes.length, HEAD_BYTES),
          null);
    }
    if (bytes[0] != MAGIC) {
      throw new NotWireFormat(
          String.format(
              "The value begins with byte 0x%02x; wire format begins with 0x00. Write it with an"
                  + " Avro serializer that asks the schema registry",
              bytes[0]),
          null);
    }
    int id = ByteBuffer.wrap(bytes).getInt(1);
    Reading reading = readingOf(id);
    checkCovered(reading, id, bytes);
    try {
      return reading.reader().read(null, decoder(bytes));
    } catch (IOException | RuntimeException e) {
      throw unreadable(reading, id, e);
    }
  }

  /**
   * The schema that a record was written with, and its id.
   *
   * @throws NotWireFormat if the bytes are too short to name one
   * @throws UnknownSchema if the registry does not know the schema's id
   */
  public WriterSchema writerSchema(byte[] bytes) {
    if (bytes.length < HEAD_BYTES || bytes[0] != MAGIC) {
      throw new NotWireFormat("The value does not begin with the id of a schema", null);
    }
    int id = ByteBuffer.wrap(bytes).getInt(1);
    return new WriterSchema(id, registry.byId(id));
  }

  /** A schema and the id under which the registry holds it. */
  public record WriterSchema(int id, Schema schema) {}

  private Reading readingOf(int id) {
    Reading known = readings.get(id);
    if (known != null) {
      return known;
    }
    Schema written = registry.byId(id);
    Schema expected = SpecificData.get().getSchema(classOf(written));
    Reading reading =
        new Reading(
            written,
            new SpecificDatumReader<>(written, expected, SpecificData.getForSchema(expected)));
    readings.put(id, reading);
    return reading;
  }

  private static Class<? extends SpecificRecord> classOf(Schema written) {
    String name = written.getType() == Schema.Type.RECORD ? written.getFullName() : "";
    if (!name.startsWith(OWN_NAMESPACE)) {
      throw new UnknownRecordType(written.getFullName(), "a record under org.kornspur");
    }
    try {
      return Class.forName(name).asSubclass(SpecificRecord.class);
    } catch (ClassNotFoundException | ClassCastException e) {
      throw new UnknownRecordType(name, "a record that this version of the contract has");
    }
  }

  /**
   * Walks over the record without building it. A length in foreign bytes may claim more than memory
   * holds; after this walk every length is known to be covered by bytes.
   */
  private static void checkCovered(Reading reading, int id, byte[] bytes) {
    BinaryDecoder decoder = decoder(bytes);
    try {
      GenericDatumReader.skip(reading.written(), decoder);
      if (!decoder.isEnd()) {
        throw new NotWireFormat(
            ("Bytes follow the end of the record, which was read as %s by schema id %s. The id or "
                    + "the bytes are wrong: have the sender write it again")
                .formatted(reading.written().getFullName(), id),
            null);
      }
    } catch (IOException | AvroRuntimeException | IndexOutOfBoundsException e) {
      throw unreadable(reading, id, e);
    }
  }

  private static BinaryDecoder decoder(byte[] bytes) {
    return DecoderFactory.get().binaryDecoder(bytes, HEAD_BYTES, bytes.length - HEAD_BYTES, null);
  }

  private static NotWireFormat unreadable(Reading reading, int id, Exception cause) {
    String reason = cause instanceof EOFException ? "it ends too early" : cause.getMessage();
    return new NotWireFormat(
        ("The value cannot be read as %s by schema id %s: %s. The id or the bytes are wrong: "
                + "have the sender write it again")
            .formatted(reading.written().getFullName(), id, reason),
        cause);
  }
}
