package org.kornspur.api.command.fact;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.api.command.fact.BodyReader.Item;
import org.kornspur.api.problem.ApiProblem;

class BodyReaderTest {

  @Test
  void anObjectIsOneFact() {
    assertThat(BodyReader.list(utf8(" {\"a\": 1} "))).isEmpty();
  }

  @Test
  void aListIsDividedIntoTheTextsOfItsElements() {
    List<Item> items = list(" [ {\"a\": [1, {}]} ,\n{\"ö\": \"]\"},7 , \"x\"]");

    assertThat(items.stream().map(BodyReaderTest::text))
        .containsExactly("{\"a\": [1, {}]}", "{\"ö\": \"]\"}", "7", "\"x\"");
    assertThat(items.stream().map(Item::index)).containsExactly(0, 1, 2, 3);
    assertThat(items.get(1).place()).isEqualTo(", element 1");
  }

  @Test
  void aByteOrderMarkBeforeAListIsPassedOver() {
    assertThat(list("\uFEFF[{}, {}]")).hasSize(2);
  }

  @Test
  void linesKeepTheirNumbersAndEmptyOnesArePassedOver() {
    List<Item> items = (BodyReader.lines(utf8("{}\r\n\r\n  \n{\"a\":1}\n[\n")));

    assertThat(items.stream().map(Item::line)).containsExactly(1, 4, 5);
    assertThat(items.get(1).place()).isEqualTo(", line 4");
    assertThat(text(items.get(1))).isEqualTo("{\"a\":1}");
  }

  @Test
  void aLastLineNeedsNoEnd() {
    assertThat(BodyReader.lines(utf8("{}\n{}"))).hasSize(2);
  }

  @Test
  void aListThatIsNoJsonIsRefusedWithItsPlace() {
    refused("[{}, {]", 400, "line 1, column 7");
    refused("[{}\n,{\"a\": 1, \"a\": 2}]", 400, "line 2");
    refused("[{}", 400, "line 1");
    refused("[{}] []", 400, "after the end");
    refused("[]", 400, "no fact");
    refused("[" + "[".repeat(100_000), 400, "nesting depth");
  }

  @Test
  void bytesThatAreNotUtf8AreRefused() {
    assertThatThrownBy(() -> BodyReader.list(new byte[] {'[', (byte) 0xff, ']'}))
        .isInstanceOf(ApiProblem.class)
        .hasMessageContaining("UTF-8");
  }

  @Test
  void tooManyFactsAreRefusedAndTheMostAreNot() {
    String most = "{}\n".repeat(BodyReader.MOST_FACTS);

    assertThat(BodyReader.lines(utf8(most))).hasSize(BodyReader.MOST_FACTS);
    assertThatThrownBy(() -> BodyReader.lines(utf8(most + "{}")))
        .isInstanceOfSatisfying(
            ApiProblem.class, problem -> assertThat(problem.document().status()).isEqualTo(413));
  }

  private static void refused(String json, int status, String says) {
    assertThatThrownBy(() -> BodyReader.list(utf8(json)))
        .isInstanceOfSatisfying(
            ApiProblem.class, problem -> assertThat(problem.document().status()).isEqualTo(status))
        .hasMessageContaining(says);
  }

  private static List<Item> list(String json) {
    return BodyReader.list(utf8(json)).orElseThrow();
  }

  private static String text(Item item) {
    return new String(item.utf8(), StandardCharsets.UTF_8);
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
