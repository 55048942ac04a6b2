package org.kornspur.api.hostile;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.UnaryOperator;

/**
 * Makes harmful inputs from harmless ones. The kinds of harm follow the lists of the OWASP Web
 * Security Testing Guide (input validation) and the security considerations of RFC 8259; the
 * strings themselves are common practice, no source.
 */
final class HostileInputs {
  private static final ObjectMapper JSON = new ObjectMapper();

  private static final List<String> HARMFUL_TEXTS =
      List.of(
          "",
          " ",
          "../../../../etc/passwd",
          "..%2f..%2fetc%2fpasswd",
          "=HYPERLINK(\"http://127.0.0.1:1/\",\"x\")",
          "@SUM(1+1)",
          "-1+1|cmd",
          "<script>alert(1)</script>",
          "\"><img src=x onerror=alert(1)>",
          "${jndi:ldap://127.0.0.1:1/a}",
          "http://127.0.0.1:1/latest/meta-data/",
          "file:///etc/passwd",
          "' OR 1=1 --",
          "lot\u0000id",
          "lot\u202Egnp",
          "L\u200B1",
          "\u041B-1",
          "e\u0301-1",
          "\uFEFFL-1",
          "\uDBFF\uDFFF",
          "a|b",
          "lot:L-1",
          "{factId}",
          "%s%s%n",
          "x".repeat(5_000),
          "\uD83D\uDE00".repeat(600));

  private static final List<String> HARMFUL_VALUES =
      List.of(
          "1e400",
          "-1e400",
          "1e-400",
          "4.9e-324",
          "-4.9e-324",
          "2.2250738585072014e-308",
          "1e-310",
          "1e-180",
          "1e-20",
          "1e180",
          "1.7976931348623157e308",
          "-1.7976931348623157e308",
          "0.0",
          "NaN",
          "Infinity",
          "0x10",
          "01",
          "-0",
          "99999999999999999999",
          "9".repeat(150),
          "null",
          "true",
          "[]",
          "{}",
          "[".repeat(10_000),
          "{\"a\":".repeat(5_000),
          "\"\\ud800\"",
          "\"+999999999-12-31T23:59:59Z\"",
          "\"2099-01-01T00:00:00Z\"",
          "\"0000-00-00\"");

  private final Random random;
  private final List<ObjectNode> harmless;

  /**
   * @param seed the same seed makes the same inputs
   * @param harmless sound facts as JSON
   */
  HostileInputs(long seed, List<String> harmless) {
    random = new Random(seed);
    this.harmless = harmless.stream().map(HostileInputs::tree).toList();
  }

  /** A fact with something wrong in it, mostly; {@code number} makes it differ from every other. */
  byte[] fact(int number) {
    ObjectNode fact = harmless.get(random.nextInt(harmless.size())).deepCopy();
    ObjectNode header = (ObjectNode) fact.get("header");
    header.put("factId", "hostile-" + number);
    header.put("sourceDocument", "invented, input " + number);
    header.putNull("correction");
    return switch (random.nextInt(8)) {
      case 0 -> bytes(fact);
      case 1 -> harmed(bytes(fact));
      case 2 -> harmed(harmed(bytes(fact)));
      case 3, 4 -> bytes(withHarmfulText(fact));
      case 5, 6 -> withHarmfulValue(fact);
      default -> bytes(reshaped(fact));
    };
  }

  /** A piece of text for a path or a query. */
  String text() {
    return random.nextInt(4) == 0
        ? new String(noise(1 + random.nextInt(40)), StandardCharsets.ISO_8859_1)
        : HARMFUL_TEXTS.get(random.nextInt(HARMFUL_TEXTS.size()));
  }

  /** Changes some bytes of an input: flips, cuts, doubles, or puts noise in. */
  byte[] harmed(byte[] input) {
    if (input.length == 0) {
      return noise(1 + random.nextInt(20));
    }
    int at = random.nextInt(input.length);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    switch (random.nextInt(4)) {
      case 0 -> {
        byte[] flipped = input.clone();
        flipped[at] ^= (byte) (1 << random.nextInt(8));
        return flipped;
      }
      case 1 -> {
        return Arrays.copyOf(input, at);
      }
      case 2 -> {
        out.writeBytes(input);
        out.write(input, at, Math.min(input.length - at, 200));
      }
      default -> {
        out.write(input, 0, at);
        out.writeBytes(noise(1 + random.nextInt(20)));
        out.write(input, at, input.length - at);
      }
    }
    return out.toByteArray();
  }

  /** One of some things. */
  <T> T oneOf(List<T> things) {
    return things.get(random.nextInt(things.size()));
  }

  private byte[] noise(int length) {
    byte[] noise = new byte[length];
    random.nextBytes(noise);
    return noise;
  }

  private ObjectNode withHarmfulText(ObjectNode fact) {
    changeOneLeaf(fact, leaf -> JSON.getNodeFactory().textNode(oneOf(HARMFUL_TEXTS)));
    return fact;
  }

  private byte[] withHarmfulValue(ObjectNode fact) {
    String mark = "harmful-value-stands-here";
    changeOneLeaf(fact, leaf -> JSON.getNodeFactory().textNode(mark));
    String text = new String(bytes(fact), StandardCharsets.UTF_8);
    return text.replace("\"" + mark + "\"", oneOf(HARMFUL_VALUES)).getBytes(StandardCharsets.UTF_8);
  }

  private ObjectNode reshaped(ObjectNode fact) {
    List<String> names = new ArrayList<>();
    fact.fieldNames().forEachRemaining(names::add);
    String name = oneOf(names);
    if (random.nextInt(50) == 0) {
      outlineOfManyCorners(fact);
      return fact;
    }
    switch (random.nextInt(4)) {
      case 0 -> fact.remove(name);
      case 1 -> fact.putObject(name);
      case 2 -> fact.putArray(name).add(1).add("x");
      default -> fact.put("unknownField", 1);
    }
    return fact;
  }

  private static void outlineOfManyCorners(ObjectNode fact) {
    ArrayNode corners = fact.putArray("outline");
    for (int corner = 0; corner < 20_000; corner++) {
      corners.addObject().put("lon", corner * 1e-6).put("lat", (corner % 2) * 1e-6);
    }
  }

  private void changeOneLeaf(JsonNode within, UnaryOperator<JsonNode> change) {
    List<Runnable> changes = new ArrayList<>();
    gather(within, change, changes);
    oneOf(changes).run();
  }

  private static void gather(JsonNode within, UnaryOperator<JsonNode> change, List<Runnable> into) {
    if (within instanceof ObjectNode fields) {
      fields
          .properties()
          .forEach(
              field -> {
                if (field.getValue().isContainerNode()) {
                  gather(field.getValue(), change, into);
                } else {
                  into.add(() -> fields.set(field.getKey(), change.apply(field.getValue())));
                }
              });
    } else if (within instanceof ArrayNode elements) {
      elements.forEach(element -> gather(element, change, into));
    }
  }

  private static ObjectNode tree(String json) {
    try {
      return (ObjectNode) JSON.readTree(json);
    } catch (JsonProcessingException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  private static byte[] bytes(JsonNode json) {
    try {
      return JSON.writeValueAsBytes(json);
    } catch (JsonProcessingException unwritable) {
      throw new UncheckedIOException(unwritable);
    }
  }
}
