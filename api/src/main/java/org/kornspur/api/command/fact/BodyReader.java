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
import org.kornspur.api.command.fact.Item.Place;
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

  /** What a body holds. */
  sealed interface Body {

    /** One fact. */
    record One(Item item) implements Body {}

    /** Many facts, each to be answered for itself. */
    record Many(List<Item> items) implements Body {
      public Many {
        items = List.copyOf(items);
      }
    }
  }

  /**
   * Divides JSON: one object, or a list of them.
   *
   * @throws ApiProblem if it is no JSON, or holds too many facts
   */
  static Body json(byte[] utf8) {
    String text = text(utf8);
    if (!text.stripLeading().startsWith("[")) {
      return new Body.One(new Item(new Place.Alone(), new Item.Text(utf8)));
    }
    try (JsonParser parser = JsonText.parser(text)) {
      return new Body.Many(elements(parser, text));
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
  static Body lines(byte[] utf8) {
    List<Item> items = new ArrayList<>();
    int number = 1;
    int start = 0;
    for (int at = 0; at <= utf8.length; at++) {
      if (at == utf8.length || utf8[at] == '\n') {
        byte[] line = Arrays.copyOfRange(utf8, start, at);
        if (!isBlank(line)) {
          add(items, new Place.Line(number), line);
        }
        number++;
        start = at + 1;
      }
    }
    return new Body.Many(notEmpty(items));
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
      add(items, new Place.Index(items.size()), element.getBytes(StandardCharsets.UTF_8));
    }
    if (parser.nextToken() != null) {
      throw problem(ProblemKind.UNREADABLE_BODY, new Given.MoreText(), new BodyProblem.MoreText());
    }
    return notEmpty(items);
  }

  private static void add(List<Item> items, Place place, byte[] utf8) {
    if (items.size() == MOST_FACTS) {
      throw problem(
          ProblemKind.BODY_TOO_LARGE,
          new RequestGiven.ManyFacts(MOST_FACTS),
          new BodyProblem.TooManyFacts(MOST_FACTS));
    }
    items.add(new Item(place, new Item.Text(utf8)));
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
    return new ApiProblem(kind, List.of(Problem.of("", given, reason)));
  }
}
