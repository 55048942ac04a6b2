package org.kornspur.processors.stream;

import com.fasterxml.jackson.annotation.JsonAlias;
import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonDeserializer;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.cfg.MapperBuilder;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.dataformat.smile.databind.SmileMapper;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.kafka.common.serialization.Serde;
import org.apache.kafka.common.serialization.Serdes;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.StatementJson;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.verdict.Verdict;

/**
 * How topics and stores hold what only the processors themselves read: in {@link CompactForm}. What
 * earlier versions wrote is read too: JSON in its binary form, Smile, and plain JSON before that.
 *
 * <p>Source: Smile format specification, version 1.0.5, for the first three bytes.
 */
final class InternalSerdes {
  private static final byte[] SMILE = {':', ')', '\n'};
  private static final ObjectMapper OF_SMILE = configured(SmileMapper.builder());
  private static final ObjectMapper PLAIN = configured(JsonMapper.builder());

  /** How the parts of a record are asked for, looked up once for each type. */
  private static final ClassValue<List<Method>> PARTS =
      new ClassValue<>() {
        @Override
        protected List<Method> computeValue(Class<?> type) {
          return partsOf(type);
        }
      };

  private InternalSerdes() {}

  private static ObjectMapper configured(MapperBuilder<?, ?> format) {
    return format
        .addModule(new Jdk8Module())
        .addModule(new JavaTimeModule())
        .addModule(
            new SimpleModule("texts")
                .addDeserializer(Subject.class, reading(json -> Subject.parse(json.getText())))
                .addDeserializer(Coded.class, reading(InternalSerdes::statement)))
        .addMixIn(Report.class, NamedByKind.class)
        .addMixIn(Verdict.class, NamedByState.class)
        .addMixIn(Verdict.Met.class, OfEarlierVersions.class)
        .addMixIn(Verdict.NotMet.class, OfEarlierVersions.class)
        .addMixIn(Verdict.Owed.class, OwedOfEarlierVersions.class)
        .addMixIn(InheritedFinding.class, OfEarlierVersions.class)
        .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
        .build();
  }

  static <T> Serde<T> serde(Class<T> type) {
    return Serdes.serdeFrom(
        (topic, value) -> value == null ? null : write(value, type),
        (topic, bytes) -> bytes == null ? null : read(bytes, type));
  }

  static byte[] write(Object value, Class<?> type) {
    return CompactForm.write(value, type);
  }

  static <T> T read(byte[] bytes, Class<T> type) {
    if (bytes.length > 0 && bytes[0] == CompactForm.FIRST_BYTE) {
      return CompactForm.read(bytes, type);
    }
    try {
      boolean isSmile = Arrays.mismatch(bytes, SMILE) == SMILE.length;
      return (isSmile ? OF_SMILE : PLAIN).readValue(bytes, type);
    } catch (IOException unreadable) {
      throw new UncheckedIOException("Cannot read " + type.getName(), unreadable);
    }
  }

  /**
   * Gives back what was read, if no part of it is missing. Such a value is none that the processors
   * wrote, but for a version that did not know the part.
   *
   * @throws IllegalArgumentException with the name of the part that is missing
   */
  static <T> T requireWhole(T value) {
    requireParts(value, "the value");
    return value;
  }

  private static void requireParts(Object value, String name) {
    if (value == null) {
      throw new IllegalArgumentException("A value without " + name);
    } else if (value instanceof Record whole) {
      PARTS
          .get(whole.getClass())
          .forEach(part -> requireParts(partOf(whole, part), part.getName()));
    } else if (value instanceof Optional<?> optional) {
      optional.ifPresent(part -> requireParts(part, name));
    } else if (value instanceof Collection<?> list) {
      list.forEach(part -> requireParts(part, name));
    } else if (value instanceof Map<?, ?> map) {
      requireParts(map.values(), name);
    }
  }

  private static List<Method> partsOf(Class<?> type) {
    List<Method> parts =
        Arrays.stream(type.getRecordComponents()).map(RecordComponent::getAccessor).toList();
    parts.forEach(part -> part.setAccessible(true));
    return parts;
  }

  private static Object partOf(Record whole, Method part) {
    try {
      return part.invoke(whole);
    } catch (ReflectiveOperationException unreadable) {
      throw new IllegalArgumentException("Cannot read " + part.getName(), unreadable);
    }
  }

  @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
  @JsonSubTypes({
    @JsonSubTypes.Type(value = Report.FromParent.class, name = "parent"),
    @JsonSubTypes.Type(value = Report.FromPart.class, name = "part"),
    @JsonSubTypes.Type(value = Report.FromHybrid.class, name = "hybrid"),
    @JsonSubTypes.Type(value = Report.FromGround.class, name = "ground"),
    @JsonSubTypes.Type(value = Report.AsksLaboratory.class, name = "asks-laboratory"),
    @JsonSubTypes.Type(value = Report.FromLaboratory.class, name = "laboratory")
  })
  private interface NamedByKind {}

  @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "state")
  @JsonSubTypes({
    @JsonSubTypes.Type(value = Verdict.Met.class, name = "met"),
    @JsonSubTypes.Type(value = Verdict.NotMet.class, name = "not-met"),
    @JsonSubTypes.Type(value = Verdict.Owed.class, name = "owed")
  })
  private interface NamedByState {}

  /** What earlier versions wrote as a sentence is read as a finding that was recorded so. */
  private interface OfEarlierVersions {
    @JsonAlias("sentence")
    @JsonFormat(with = JsonFormat.Feature.ACCEPT_SINGLE_VALUE_AS_ARRAY)
    List<Coded> findings();
  }

  private interface OwedOfEarlierVersions extends OfEarlierVersions {
    @JsonAlias("owed")
    @JsonFormat(with = JsonFormat.Feature.ACCEPT_SINGLE_VALUE_AS_ARRAY)
    List<Coded> evidence();
  }

  private static Coded statement(JsonParser json) throws IOException {
    JsonNode node = json.readValueAsTree();
    return node.isTextual()
        ? new BasisFinding.Recorded(node.asText()).coded()
        : StatementJson.statement(node);
  }

  private interface Reading<T> {
    T of(JsonParser json) throws IOException;
  }

  private static <T> JsonDeserializer<T> reading(Reading<T> how) {
    return new JsonDeserializer<>() {
      @Override
      public T deserialize(JsonParser json, DeserializationContext context) throws IOException {
        return how.of(json);
      }
    };
  }
}
