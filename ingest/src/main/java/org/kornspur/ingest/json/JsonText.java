package org.kornspur.ingest.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;

/**
 * Turns text into JSON within bounds: at most 32 levels deep, numbers of at most 100 digits, texts
 * and names of bounded length, no name twice in one object.
 */
public final class JsonText {

  /** Deepest nesting; a fact needs four. */
  public static final int DEEPEST = 32;

  /** Longest input that holds one fact, in bytes. */
  public static final int LONGEST_FACT_BYTES = 1_000_000;

  private static final JsonMapper MAPPER =
      JsonMapper.builder(
              JsonFactory.builder()
                  .streamReadConstraints(
                      StreamReadConstraints.builder()
                          .maxNestingDepth(DEEPEST)
                          .maxNumberLength(100)
                          .maxNameLength(1000)
                          .maxStringLength(LONGEST_FACT_BYTES)
                          .build())
                  .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                  .build())
          .build();

  private static final ObjectReader ONE_TREE =
      MAPPER.readerFor(JsonNode.class).with(DeserializationFeature.FAIL_ON_TRAILING_TOKENS);

  private JsonText() {}

  /**
   * The one JSON value that a text holds.
   *
   * @throws IOException if the text is no JSON, holds more than one value, or breaks a bound; the
   *     message says where
   */
  public static JsonNode parse(String text) throws IOException {
    return ONE_TREE.readTree(text);
  }

  /** The same of bytes, read as they are asked for. */
  public static JsonParser parser(InputStream bytes) throws IOException {
    return MAPPER.createParser(bytes);
  }

  /** A parser with the same bounds, for inputs of many values; {@code readValueAsTree} works. */
  public static JsonParser parser(String text) throws IOException {
    return MAPPER.createParser(text);
  }
}
