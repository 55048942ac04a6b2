package org.kornspur.ingest.wire;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.apache.avro.Schema;
import org.apache.avro.SchemaBuilder;
import org.apache.avro.generic.GenericDatumReader;
import org.apache.avro.generic.GenericRecord;
import org.apache.avro.io.DecoderFactory;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.Correction;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.QuarantineProblem;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.registry.RegistryConfig;
import org.kornspur.ingest.registry.RegistryUnreachable;
import org.kornspur.ingest.registry.SchemaLedger;
import org.kornspur.ingest.registry.SchemaRegistry;
import org.kornspur.ingest.registry.UnknownSchema;

/**
 * Bytes are written down by hand from two published descriptions: Confluent Documentation,
 * "Formats, Serializers, and Deserializers for Schema Registry", section "Wire format" (byte 0: 0;
 * bytes 1 to 4: schema id, 32 bits in network byte order; then the data), and Apache Avro 1.12
 * Specification, "Binary Encoding" (a string is its length as zig-zag long, then UTF-8).
 */
class WireFormatTest {

  private static final String TOPIC = "kornspur.facts";

  /** Magic, id 258, "F1", "net mass". */
  private static final byte[] PUBLISHED =
      HexFormat.ofDelimiter(" ").parseHex("00 00 00 01 02 04 46 31 10 6e 65 74 20 6d 61 73 73");

  private static final Correction CORRECTION = new Correction("F1", "net mass");

  private final WireFormat wireFormat =
      new WireFormat(registryHolding(258, CORRECTION.getSchema()));

  @Test
  void shouldWriteTheBytesOfThePublishedDescription() {
    assertThat(wireFormat.encode(TOPIC, CORRECTION)).isEqualTo(PUBLISHED);
  }

  @Test
  void shouldReadTheBytesOfThePublishedDescription() {
    assertThat(wireFormat.decode(PUBLISHED)).isEqualTo(CORRECTION);
  }

  @Test
  void shouldLeaveBytesThatAvroAloneCanRead() throws Exception {
    byte[] bytes = wireFormat.encode(TOPIC, CORRECTION);
    GenericRecord read =
        new GenericDatumReader<GenericRecord>(CORRECTION.getSchema())
            .read(null, DecoderFactory.get().binaryDecoder(bytes, 5, bytes.length - 5, null));
    assertThat(read.get("supersedes").toString()).isEqualTo("F1");
    assertThat(read.get("reason").toString()).isEqualTo("net mass");
  }

  /** Confluent, the same page: TopicRecordNameStrategy is {@code <topic>-<full record name>}. */
  @Test
  void shouldNameTheSubjectByTopicAndRecord() {
    assertThat(WireFormat.subject(TOPIC, CORRECTION.getSchema()))
        .isEqualTo("kornspur.facts-org.kornspur.contract.Correction");
  }

  @Test
  void shouldReadARecordThatALaterWriterGaveANullableField() {
    Schema later =
        withField(
            CORRECTION.getSchema(),
            new Schema.Field(
                "approvedBy",
                Schema.createUnion(
                    Schema.create(Schema.Type.NULL), Schema.create(Schema.Type.STRING)),
                null,
                Schema.Field.NULL_DEFAULT_VALUE));
    LocalSchemaRegistry registry = new LocalSchemaRegistry();
    String subject = WireFormat.subject(TOPIC, later);
    registry.register(subject, CORRECTION.getSchema());
    int id = registry.register(subject, later);
    byte[] bytes = HexFormat.ofDelimiter(" ").parseHex("00 00 00 00 00 04 46 31 02 6d 02 04 51 41");
    bytes[4] = (byte) id;
    assertThat(new WireFormat(registry).decode(bytes)).isEqualTo(new Correction("F1", "m"));
  }

  @Test
  void shouldReadByNameWhereTheWriterHadTheFieldsInAnotherOrder() {
    Schema reordered =
        SchemaBuilder.record("QuarantineProblem")
            .namespace("org.kornspur.contract")
            .fields()
            .requiredString("value")
            .requiredString("field")
            .requiredString("limit")
            .requiredString("remedy")
            .endRecord();
    byte[] bytes = HexFormat.ofDelimiter(" ").parseHex("00 00 00 00 07 02 76 02 66 02 6c 02 72");
    SpecificRecord read = new WireFormat(registryHolding(7, reordered)).decode(bytes);
    assertThat(read).isEqualTo(new QuarantineProblem("f", "v", "l", "r", null));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "00 00 00 01",
        "7b 22 6c 6f 74 22",
        "01 00 00 01 02 04 46 31 10 6e 65 74 20 6d 61 73 73",
      })
  void shouldRefuseForeignBytes(String hex) {
    byte[] bytes = HexFormat.ofDelimiter(" ").parseHex(hex);
    assertThatThrownBy(() -> wireFormat.decode(bytes)).isInstanceOf(NotWireFormat.class);
  }

  @Test
  void shouldRefuseEveryRecordThatIsCutOff() {
    for (int length = 5; length < PUBLISHED.length; length++) {
      byte[] cut = Arrays.copyOf(PUBLISHED, length);
      assertThatThrownBy(() -> wireFormat.decode(cut)).isInstanceOf(NotWireFormat.class);
    }
  }

  @Test
  void shouldRefuseBytesAfterTheRecord() {
    byte[] longer = Arrays.copyOf(PUBLISHED, PUBLISHED.length + 1);
    assertThatThrownBy(() -> wireFormat.decode(longer))
        .isInstanceOf(NotWireFormat.class)
        .hasMessageContaining("Bytes follow");
  }

  /** A string of 2 147 483 000 bytes is claimed; reserving them would end the process. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "00 00 00 01 02 f0 f5 ff ff 0f 46",
        "00 00 00 01 02 01 46",
        "00 00 00 01 02 ff ff ff ff ff ff ff ff ff ff ff ff",
      })
  void shouldRefuseALengthThatTheBytesDoNotCover(String hex) {
    byte[] bytes = HexFormat.ofDelimiter(" ").parseHex(hex);
    assertThatThrownBy(() -> wireFormat.decode(bytes)).isInstanceOf(NotWireFormat.class);
  }

  @Test
  void shouldTellAnUnknownSchemaFromForeignBytes() {
    byte[] bytes = PUBLISHED.clone();
    bytes[4] = 3;
    assertThatThrownBy(() -> wireFormat.decode(bytes))
        .isInstanceOf(UnknownSchema.class)
        .hasMessageContaining("259");
  }

  @ParameterizedTest
  @ValueSource(strings = {"org.example.Correction", "org.kornspur.contract.NoSuchRecord"})
  void shouldRefuseARecordThatIsNoneOfOurs(String name) {
    Schema foreign = SchemaBuilder.record(name).fields().requiredString("a").endRecord();
    byte[] bytes = HexFormat.ofDelimiter(" ").parseHex("00 00 00 00 09 02 61");
    WireFormat format = new WireFormat(registryHolding(9, foreign));
    assertThatThrownBy(() -> format.decode(bytes))
        .isInstanceOf(UnknownRecordType.class)
        .hasMessageContaining(name);
  }

  @Test
  void shouldRefuseAClassOfOursThatIsNoRecord() {
    Schema disguised =
        SchemaBuilder.record(WireFormat.class.getName()).fields().requiredString("a").endRecord();
    byte[] bytes = HexFormat.ofDelimiter(" ").parseHex("00 00 00 00 09 02 61");
    WireFormat format = new WireFormat(registryHolding(9, disguised));
    assertThatThrownBy(() -> format.decode(bytes)).isInstanceOf(UnknownRecordType.class);
  }

  @Test
  void shouldNotTakeAnUnreachableRegistryForBadBytes() {
    AvroDeserializer deserializer = new AvroDeserializer();
    deserializer.configure(Map.of(RegistryConfig.URL, "http://127.0.0.1:1/nobody-listens"), false);
    assertThatThrownBy(() -> deserializer.deserialize(TOPIC, PUBLISHED))
        .isInstanceOf(RegistryUnreachable.class)
        .hasMessageContaining("http://127.0.0.1:1/nobody-listens");
  }

  @Test
  void shouldRegisterNothingWhereThatIsNotAllowed() {
    WireFormat closed = new WireFormat(new LocalSchemaRegistry(), false);
    assertThatThrownBy(() -> closed.encode(TOPIC, CORRECTION))
        .isInstanceOf(UnknownSchema.class)
        .hasMessageContaining("auto.register.schemas");
  }

  @Test
  void shouldSayWhichRecordLacksAValue() {
    Correction noReason = new Correction("F1", null);
    assertThatThrownBy(() -> wireFormat.encode(TOPIC, noReason))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("Correction")
        .hasMessageContaining("reason");
  }

  @Test
  void shouldKeepTombstones() {
    LocalSchemaRegistry registry = new LocalSchemaRegistry();
    assertThat(new AvroSerializer(registry).serialize(TOPIC, null)).isNull();
    assertThat(new AvroDeserializer(registry).deserialize(TOPIC, null)).isNull();
  }

  @Test
  void shouldAskForTheIdOfASchemaOnce() {
    AtomicInteger asked = new AtomicInteger();
    LocalSchemaRegistry registry = new LocalSchemaRegistry();
    WireFormat format =
        new WireFormat(
            new SchemaRegistry() {
              @Override
              public int register(String subject, Schema schema) {
                asked.incrementAndGet();
                return registry.register(subject, schema);
              }

              @Override
              public int idOf(String subject, Schema schema) {
                return registry.idOf(subject, schema);
              }

              @Override
              public Schema byId(int id) {
                return registry.byId(id);
              }
            });
    format.encode(TOPIC, new LotMass("L1", 12.5));
    format.encode(TOPIC, new LotMass("L2", 13.0));
    assertThat(asked).hasValue(1);
    format.encode("another", new LotMass("L2", 13.0));
    assertThat(asked).hasValue(2);
  }

  private static LocalSchemaRegistry registryHolding(int id, Schema schema) {
    SchemaLedger ledger = new SchemaLedger();
    ledger.apply(
        new SchemaLedger.Entry(WireFormat.subject(TOPIC, schema), 1, id, schema.toString()));
    return new LocalSchemaRegistry(ledger);
  }

  private static Schema withField(Schema schema, Schema.Field added) {
    Schema extended =
        Schema.createRecord(schema.getName(), schema.getDoc(), schema.getNamespace(), false);
    List<Schema.Field> fields =
        new ArrayList<>(
            schema.getFields().stream()
                .map(field -> new Schema.Field(field, field.schema()))
                .toList());
    fields.add(added);
    extended.setFields(fields);
    return extended;
  }
}
