package org.kornspur.ingest.file;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Optional;
import java.util.function.Consumer;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.JsonText;
import org.kornspur.ingest.problem.FileProblem;
import org.kornspur.ingest.problem.Given;

/**
 * A JSON file: one fact, or an array of facts. Where the text stops being JSON, what came before
 * counts and the rest is refused as one input.
 */
record JsonFile(String text, Consumer<FileInput> into) {
  /** Largest file that is read as one JSON text, in bytes. */
  static final int LARGEST = 64_000_000;

  static void read(InputStream source, Consumer<FileInput> into) throws IOException {
    byte[] bytes = source.readNBytes(LARGEST + 1);
    byte[] beginning = beginningOf(bytes);
    if (bytes.length > LARGEST) {
      into.accept(
          FileInput.refused(
              1, beginning, new Given.LargeFile(LARGEST), new FileProblem.JsonTooLarge(LARGEST)));
      return;
    }
    Optional<String> text = FileInput.textOf(bytes);
    if (text.isEmpty()) {
      into.accept(FileInput.notUtf8(1, beginning));
      return;
    }
    String withoutMark = text.get().startsWith("\uFEFF") ? text.get().substring(1) : text.get();
    new JsonFile(withoutMark, into).readAll();
  }

  private void readAll() throws IOException {
    JsonLocation start = JsonLocation.NA;
    try (JsonParser parser = JsonText.parser(text)) {
      JsonToken first = parser.nextToken();
      boolean list = first == JsonToken.START_ARRAY;
      if (first == null) {
        into.accept(
            FileInput.refused(1, new byte[0], new Given.EmptyFile(), new FileProblem.EmptyJson()));
        return;
      }
      if (list) {
        parser.nextToken();
      }
      while (parser.currentToken() != null && parser.currentToken() != JsonToken.END_ARRAY) {
        start = parser.currentTokenLocation();
        JsonNode json = parser.readValueAsTree();
        take(json, start, parser.currentLocation());
        start = parser.currentLocation();
        parser.nextToken();
        if (!list) {
          break;
        }
      }
      if (list) {
        parser.nextToken();
      }
      start = parser.currentTokenLocation();
      if (parser.currentToken() != null) {
        into.accept(
            FileInput.refused(
                start.getLineNr(),
                beginningOf(bytes(start.getCharOffset(), text.length())),
                new Given.MoreText(),
                new FileProblem.MoreText()));
      }
    } catch (JsonProcessingException e) {
      boolean somewhere = start.getCharOffset() >= 0;
      into.accept(
          new FileInput(
              somewhere ? start.getLineNr() : 1,
              beginningOf(bytes(somewhere ? start.getCharOffset() : 0, text.length())),
              FactParser.notJson(e)));
    }
  }

  private void take(JsonNode json, JsonLocation start, JsonLocation end) {
    byte[] original = bytes(start.getCharOffset(), end.getCharOffset());
    if (original.length > JsonText.LONGEST_FACT_BYTES) {
      into.accept(
          FileInput.refused(
              start.getLineNr(),
              beginningOf(original),
              new Given.Bytes(original.length),
              new FileProblem.FactTooLong(JsonText.LONGEST_FACT_BYTES)));
    } else {
      into.accept(new FileInput(start.getLineNr(), original, FactParser.accept(json)));
    }
  }

  private byte[] bytes(long from, long to) {
    int end = (int) Math.min(to, text.length());
    return text.substring((int) Math.min(from, end), end).getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] beginningOf(byte[] bytes) {
    return bytes.length > JsonText.LONGEST_FACT_BYTES
        ? Arrays.copyOf(bytes, LineReader.KEPT_OF_TOO_LONG)
        : bytes;
  }
}
