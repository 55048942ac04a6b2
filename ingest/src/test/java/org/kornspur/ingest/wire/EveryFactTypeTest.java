package org.kornspur.ingest.wire;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Arrays;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.apache.avro.Schema;
import org.apache.avro.generic.GenericData;
import org.apache.avro.generic.GenericDatumReader;
import org.apache.avro.generic.GenericDatumWriter;
import org.apache.avro.io.BinaryEncoder;
import org.apache.avro.io.DecoderFactory;
import org.apache.avro.io.EncoderFactory;
import org.apache.avro.specific.SpecificRecord;
import org.apache.avro.util.RandomData;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.registry.LocalSchemaRegistry;

/**
 * Random facts of every type, made and written by Avro's own generic tools, which know nothing of
 * the generated classes.
 */
class EveryFactTypeTest {

  private static final String TOPIC = "kornspur.facts";

  private final LocalSchemaRegistry registry = new LocalSchemaRegistry();
  private final WireFormat wireFormat = new WireFormat(registry);

  @Property(tries = 500)
  void shouldCarryEveryFactUnchanged(@ForAll FactType type, @ForAll long seed) throws Exception {
    Schema schema = type.schema();
    Object fact = new RandomData(schema, 1, seed).iterator().next();
    byte[] avro = written(schema, fact);

    SpecificRecord read = wireFormat.decode(framed(schema, avro));

    assertThat(read).isInstanceOf(type.recordClass());
    byte[] bytes = wireFormat.encode(TOPIC, read);
    assertThat(wireFormat.decode(bytes)).isEqualTo(read);
    Object again =
        new GenericDatumReader<>(schema)
            .read(null, DecoderFactory.get().binaryDecoder(bytes, 5, bytes.length - 5, null));
    assertThat(GenericData.get().compare(again, fact, schema)).isZero();
  }

  /** Whatever the bytes, there is an answer, and it is one of those that the Javadoc names. */
  @Property(tries = 1000)
  void shouldAnswerAnyBytesWithARecordOrAReason(@ForAll FactType type, @ForAll byte[] anything) {
    byte[] bytes = framed(type.schema(), anything);
    try {
      assertThat(wireFormat.decode(bytes)).isInstanceOf(type.recordClass());
    } catch (NotWireFormat e) {
      assertThat(e).hasMessageContaining(type.schema().getFullName());
    }
  }

  private byte[] framed(Schema schema, byte[] avro) {
    int id = registry.register(WireFormat.subject(TOPIC, schema), schema);
    byte[] bytes = Arrays.copyOf(new byte[] {0, 0, 0, 0, (byte) id}, 5 + avro.length);
    System.arraycopy(avro, 0, bytes, 5, avro.length);
    return bytes;
  }

  private static byte[] written(Schema schema, Object fact) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    BinaryEncoder encoder = EncoderFactory.get().binaryEncoder(bytes, null);
    new GenericDatumWriter<>(schema).write(fact, encoder);
    encoder.flush();
    return bytes.toByteArray();
  }
}
