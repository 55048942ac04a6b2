package org.kornspur.ingest.wire;

import java.io.File;
import java.net.MalformedURLException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.serialization.Deserializer;
import org.apache.kafka.common.serialization.Serde;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.common.serialization.Serializer;

/**
 * The serdes of record values. Whoever builds a producer, a consumer or a topology takes them here,
 * so that a site may name other classes, such as those of Confluent, by configuration:
 *
 * <pre>
 * kornspur.value.serializer=io.confluent.kafka.serializers.KafkaAvroSerializer
 * kornspur.value.deserializer=io.confluent.kafka.serializers.KafkaAvroDeserializer
 * </pre>
 *
 * <p>Their jars are on the class path, or {@value #JARS} names them, which is the way for a
 * packaged server: it looks for classes in its own jars alone.
 *
 * <p>Those classes are made without arguments and are given the whole configuration, completed with
 * the subject strategy of {@link WireFormat} and with reading into generated classes. Without the
 * keys, {@link AvroSerializer} and {@link AvroDeserializer} serve.
 */
public final class AvroSerdes {

  /** Class name of the serializer of record values. */
  public static final String SERIALIZER = "kornspur.value.serializer";

  /** Class name of the deserializer of record values. */
  public static final String DESERIALIZER = "kornspur.value.deserializer";

  /** Jars with these classes and what they need, separated as on a class path. */
  public static final String JARS = "kornspur.value.jars";

  /**
   * By the jars, so that both ways and all clients share their classes. They stay open as long as
   * the program runs: a class may load others at any time.
   */
  private static final Map<String, ClassLoader> LOADERS = new ConcurrentHashMap<>();

  private AvroSerdes() {}

  /** The serializer that the configuration names, configured for values. */
  public static Serializer<SpecificRecord> serializer(Map<String, ?> config) {
    Serializer<SpecificRecord> serializer = made(config, SERIALIZER, AvroSerializer::new);
    serializer.configure(completed(config), false);
    return serializer;
  }

  /** The deserializer that the configuration names, configured for values. */
  public static Deserializer<SpecificRecord> deserializer(Map<String, ?> config) {
    Deserializer<SpecificRecord> deserializer = made(config, DESERIALIZER, AvroDeserializer::new);
    deserializer.configure(completed(config), false);
    return deserializer;
  }

  /** Both ways, for every type of record. */
  public static Serde<SpecificRecord> serde(Map<String, ?> config) {
    return Serdes.serdeFrom(serializer(config), deserializer(config));
  }

  private static Map<String, Object> completed(Map<String, ?> config) {
    Map<String, Object> completed = new HashMap<>();
    completed.put(
        "value.subject.name.strategy",
        "io.confluent.kafka.serializers.subject.TopicRecordNameStrategy");
    completed.put("specific.avro.reader", true);
    completed.putAll(config);
    return completed;
  }

  @SuppressWarnings("unchecked") // the class is the site's choice; Kafka makes the same promise
  private static <S> S made(Map<String, ?> config, String key, Supplier<S> usual) {
    Object className = config.get(key);
    if (className == null) {
      return usual.get();
    }
    try {
      return (S)
          Class.forName(className.toString(), true, loader(config))
              .getDeclaredConstructor()
              .newInstance();
    } catch (ReflectiveOperationException | LinkageError e) {
      throw new IllegalArgumentException(
          ("%s is %s, which cannot be made: %s. Name its jar in %s or take the key away")
              .formatted(key, className, e, JARS),
          e);
    }
  }

  private static ClassLoader loader(Map<String, ?> config) {
    Object jars = config.get(JARS);
    return jars == null
        ? AvroSerdes.class.getClassLoader()
        : LOADERS.computeIfAbsent(jars.toString(), AvroSerdes::loader);
  }

  private static ClassLoader loader(String jars) {
    URL[] places =
        Arrays.stream(jars.split(Pattern.quote(File.pathSeparator)))
            .map(jar -> place(Path.of(jar)))
            .toArray(URL[]::new);
    return new URLClassLoader(places, AvroSerdes.class.getClassLoader());
  }

  private static URL place(Path jar) {
    if (!Files.isRegularFile(jar)) {
      throw new IllegalArgumentException(
          "%s names %s, which is no file. Give the path of a jar".formatted(JARS, jar));
    }
    try {
      return jar.toUri().toURL();
    } catch (MalformedURLException impossible) {
      throw new IllegalStateException(impossible);
    }
  }
}
