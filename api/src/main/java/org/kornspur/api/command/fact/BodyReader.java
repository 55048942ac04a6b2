package org.kornspur.api.command.fact;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.BodyProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RequestGiven;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.JsonText;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.InputProblem;
import org.kornspur.ingest.problem.Reason;
import org.kornspur.ingest.statement.Statement;

/** Divides the body of a request into facts, each with its own text. */
final class BodyReader {

  /** Most facts of one request. */
  static final int MOST_FACTS = 10_000;

  private static final String BYTE_ORDER_MARK = "\uFEFF";

  private BodyReader() {}

  /**
   * One fact of a request, not read yet.
   *
   * @param line of NDJSON that it is, from 1; else null
   * @param index of the element of a list that it is, from 0; else null
   */
  record Item(Integer line, Integer index, byte[] utf8) {

    /** Where it stands, for a person who looks for it later. */
    String place() {
      return line == null ? ", element " + index : ", line " + line;
    }
  }

  /**
   * Divides a list in JSON.
   *
   * @return empty where it is no list
   * @throws ApiProblem if it is no JSON, or holds too many facts
   */
  static Optional<List<Item>> list(byte[] utf8) {
    String text = text(utf8);
    if (!text.stripLeading().startsWith("[")) {
      return Optional.empty();
    }
    try (JsonParser parser = JsonText.parser(text)) {
      return Optional.of(elements(parser, text));
    } catch (JsonProcessingException fault) {
      throw new ApiProblem(ProblemKind.UNREADABLE_BODY, FactParser.notJson(fault).problems());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Divides NDJSON: one fact a line; empty lines are passed over.
   *
   * @throws ApiProblem if it holds too many facts, or none
   */
  static List<Item> lines(byte[] utf8) {
    List<Item> items = new ArrayList<>();
    int number = 1;
    int start = 0;
    for (int at = 0; at <= utf8.length; at++) {
      if (at == utf8.length || utf8[at] == '\n') {
        byte[] line = Arrays.copyOfRange(utf8, start, at);
        if (!isBlank(line)) {
          add(items, new Item(number, null, line));
        }
        number++;
        start = at + 1;
      }
    }
    return notEmpty(items);
  }

  private static List<Item> elements(JsonParser parser, String text) throws IOException {
    List<Item> items = new ArrayList<>();
    parser.nextToken();
    for (JsonToken token = parser.nextToken();
        token != JsonToken.END_ARRAY;
        token = parser.nextToken()) {
      int from = (int) parser.currentTokenLocation().getCharOffset();
      parser.skipChildren();
      parser.finishToken();
      int to = (int) parser.currentLocation().getCharOffset();
      String element = text.substring(from, to);
      add(items, new Item(null, items.size(), element.getBytes(StandardCharsets.UTF_8)));
    }
    if (parser.nextToken() != null) {
      throw problem(ProblemKind.UNREADABLE_BODY, new Given.MoreText(), new BodyProblem.MoreText());
    }
    return notEmpty(items);
  }

  private static void add(List<Item> items, Item item) {
    if (items.size() == MOST_FACTS) {
      throw problem(
          ProblemKind.BODY_TOO_LARGE,
          new RequestGiven.ManyFacts(MOST_FACTS),
          new BodyProblem.TooManyFacts(MOST_FACTS));
    }
    items.add(item);
  }

  private static List<Item> notEmpty(List<Item> items) {
    if (items.isEmpty()) {
      throw problem(
          ProblemKind.UNREADABLE_BODY, new RequestGiven.NoFact(), new BodyProblem.NoFact());
    }
    return items;
  }

  private static boolean isBlank(byte[] line) {
    for (byte character : line) {
      if (character != ' ' && character != '\t' && character != '\r') {
        return false;
      }
    }
    return true;
  }

  private static String text(byte[] utf8) {
    try {
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(utf8)).toString();
      return text.startsWith(BYTE_ORDER_MARK) ? " " + text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw problem(
          ProblemKind.UNREADABLE_BODY,
          new Given.BytesNotUtf8(utf8.length),
          new InputProblem.NotUtf8());
    }
  }

  private static ApiProblem problem(ProblemKind kind, Statement given, Reason reason) {
    return new ApiProblem(kind, Problem.of("", given, reason));
  }
}
