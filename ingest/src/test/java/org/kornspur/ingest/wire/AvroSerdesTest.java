package org.kornspur.ingest.wire;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import javax.tools.ToolProvider;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.serialization.Deserializer;
import org.apache.kafka.common.serialization.Serializer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.registry.RegistryConfig;

/**
 * That a site's own serializer is made and told what it needs. Keys: Confluent, "Formats,
 * Serializers, and Deserializers for Schema Registry", {@code value.subject.name.strategy} and
 * {@code specific.avro.reader}.
 */
class AvroSerdesTest {

  private static final String URL = "http://localhost:8081";

  /** Stands for a class that a site puts on the class path; keeps what it was told. */
  public static final class SiteSerde
      implements Serializer<SpecificRecord>, Deserializer<SpecificRecord> {

    private static final LocalSchemaRegistry REGISTRY = new LocalSchemaRegistry();

    private Map<String, ?> told;
    private boolean forKeys;

    @Override
    public void configure(Map<String, ?> configs, boolean isKey) {
      told = configs;
      forKeys = isKey;
    }

    @Override
    public byte[] serialize(String topic, SpecificRecord value) {
      return new WireFormat(REGISTRY).encode(topic, value);
    }

    @Override
    public SpecificRecord deserialize(String topic, byte[] bytes) {
      return new WireFormat(REGISTRY).decode(bytes);
    }

    @Override
    public void close() {}
  }

  private static final Map<String, String> SITE =
      Map.of(
          RegistryConfig.URL,
          URL,
          AvroSerdes.SERIALIZER,
          SiteSerde.class.getName(),
          AvroSerdes.DESERIALIZER,
          SiteSerde.class.getName());

  @Test
  void shouldUseTheProjectsOwnUnlessTold() {
    Map<String, String> config = Map.of(RegistryConfig.URL, URL);
    assertThat(AvroSerdes.serializer(config)).isInstanceOf(AvroSerializer.class);
    assertThat(AvroSerdes.deserializer(config)).isInstanceOf(AvroDeserializer.class);
  }

  @Test
  void shouldMakeTheSitesClassAndTellItTheSubjectStrategy() {
    SiteSerde serializer = (SiteSerde) AvroSerdes.serializer(SITE);
    assertThat(serializer.forKeys).isFalse();
    assertThat(serializer.told.get("schema.registry.url")).isEqualTo(URL);
    assertThat(serializer.told.get("value.subject.name.strategy"))
        .isEqualTo("io.confluent.kafka.serializers.subject.TopicRecordNameStrategy");
    SiteSerde deserializer = (SiteSerde) AvroSerdes.deserializer(SITE);
    assertThat(deserializer.told.get("specific.avro.reader")).isEqualTo(true);
  }

  @Test
  void shouldNameTheKeyWhoseClassCannotBeMade() {
    assertThatThrownBy(
            () -> AvroSerdes.serializer(Map.of(AvroSerdes.SERIALIZER, "org.example.NotThere")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("kornspur.value.serializer")
        .hasMessageContaining("org.example.NotThere");
  }

  /** As a packaged server finds it: in a jar that is on no class path. */
  @Test
  void shouldLoadTheSitesClassFromTheJarThatIsNamed(@TempDir Path folder) throws Exception {
    Path jar = jarOf(folder, "elsewhere.FromAJar");
    Map<String, String> config =
        Map.of(
            RegistryConfig.URL,
            URL,
            AvroSerdes.SERIALIZER,
            "elsewhere.FromAJar",
            AvroSerdes.JARS,
            jar.toString());
    Serializer<SpecificRecord> serializer = AvroSerdes.serializer(config);

    assertThat(serializer.getClass().getName()).isEqualTo("elsewhere.FromAJar");
    assertThat(serializer.serialize("any", null)).containsExactly(7);
    assertThatThrownBy(
            () ->
                AvroSerdes.serializer(
                    Map.of(AvroSerdes.SERIALIZER, "x.Y", AvroSerdes.JARS, "not-there.jar")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("kornspur.value.jars")
        .hasMessageContaining("not-there.jar");
  }

  private static Path jarOf(Path folder, String className) throws IOException {
    String name = className.substring(className.lastIndexOf('.') + 1);
    Path source = Files.createDirectories(folder.resolve("elsewhere")).resolve(name + ".java");
    Files.writeString(
        source,
        """
        package elsewhere;
        public class %s implements org.apache.kafka.common.serialization.Serializer<Object> {
          @Override
          public byte[] serialize(String topic, Object value) {
            return new byte[] {7};
          }
        }
        """
            .formatted(name));
    int failed =
        ToolProvider.getSystemJavaCompiler()
            .run(
                null,
                null,
                null,
                "-proc:none",
                "-cp",
                Path.of(
                        Serializer.class
                            .getProtectionDomain()
                            .getCodeSource()
                            .getLocation()
                            .getPath())
                    .toString(),
                source.toString());
    assertThat(failed).isZero();
    Path jar = folder.resolve("site.jar");
    try (JarOutputStream out = new JarOutputStream(Files.newOutputStream(jar))) {
      out.putNextEntry(new JarEntry(className.replace('.', '/') + ".class"));
      Files.copy(folder.resolve("elsewhere").resolve(name + ".class"), out);
    }
    return jar;
  }
}
