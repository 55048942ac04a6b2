package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.ground.Plot;

class CompactFormTest {

  record Before(String name, int number) {}

  record Now(
      String name,
      int number,
      Optional<String> added,
      boolean flag,
      double amount,
      List<String> list) {
    Now {
      list = list == null ? List.of() : list;
    }
  }

  record Moment(
      Instant at, LocalDate day, long count, Subject subject, SortedMap<String, Long> n) {}

  /**
   * The order of components and kinds is how stored bytes are read. A component may be added behind
   * the others and a kind behind the others; a line that changes otherwise loses the state of
   * running sites.
   */
  @Test
  void theLayoutOfWhatIsKeptIsTheOneThatIsHeldHere() throws IOException {
    SortedMap<String, List<String>> layouts = new TreeMap<>();
    List.of(Report.class, Plot.class, PlotChange.class, Revocation.class, RegisterEntry.class)
        .forEach(root -> collect(root, layouts));
    StringBuilder found = new StringBuilder();
    layouts.forEach(
        (type, parts) -> {
          found.append(type).append('\n');
          parts.forEach(part -> found.append("  ").append(part).append('\n'));
        });

    try (InputStream held = getClass().getResourceAsStream("compact-form.txt")) {
      assertThat(found).hasToString(new String(held.readAllBytes(), StandardCharsets.UTF_8));
    }
  }

  private static void collect(Type type, SortedMap<String, List<String>> layouts) {
    if (type instanceof ParameterizedType generic) {
      Arrays.stream(generic.getActualTypeArguments()).forEach(of -> collect(of, layouts));
    } else if (type instanceof Class<?> named
        && !layout(named).isEmpty()
        && layouts.putIfAbsent(named.getName(), layout(named)) == null) {
      if (named.isRecord()) {
        Arrays.stream(named.getRecordComponents())
            .map(RecordComponent::getGenericType)
            .forEach(part -> collect(part, layouts));
      } else {
        Arrays.stream(named.getPermittedSubclasses()).forEach(kind -> collect(kind, layouts));
      }
    }
  }

  /** The parts of a type in the order in which they are written; of others nothing. */
  private static List<String> layout(Class<?> type) {
    if (type.isRecord() && type != Subject.class) {
      return Arrays.stream(type.getRecordComponents())
          .map(part -> part.getName() + " " + part.getGenericType().getTypeName())
          .toList();
    }
    return type.isSealed()
        ? Arrays.stream(type.getPermittedSubclasses()).map(Class::getName).toList()
        : List.of();
  }

  @Test
  void componentsThatAnEarlierReleaseDidNotKnowAreAbsent() {
    byte[] kept = CompactForm.write(new Before("a", -3), Before.class);

    assertThat(CompactForm.read(kept, Now.class))
        .isEqualTo(new Now("a", -3, Optional.empty(), false, 0, List.of()));
  }

  /** Rather not read than without what a newer release found worth keeping. */
  @Test
  void whatANewerReleaseKeptIsRefused() {
    byte[] kept =
        CompactForm.write(new Now("a", 1, Optional.of("b"), true, 2, List.of()), Now.class);

    assertThatIllegalArgumentException()
        .isThrownBy(() -> CompactForm.read(kept, Before.class))
        .withMessageContaining("6 parts; this version knows 2");
  }

  @Test
  void eachKindOfPartIsReadAsItWasWritten() {
    Moment moment =
        new Moment(
            Instant.parse("2026-02-28T23:59:59.123456789Z"),
            LocalDate.of(1969, 12, 31),
            Long.MIN_VALUE,
            Subject.lot("L:1"),
            new TreeMap<>(java.util.Map.of("ä", Long.MAX_VALUE, "b", 0L)));
    Now now =
        new Now(
            "same", Integer.MAX_VALUE, Optional.of("same"), true, -0.0, List.of("same", "", "x"));

    assertThat(CompactForm.read(CompactForm.write(moment, Moment.class), Moment.class))
        .isEqualTo(moment);
    assertThat(CompactForm.read(CompactForm.write(now, Now.class), Now.class)).isEqualTo(now);
  }

  @Test
  void aValueWithoutAPartIsNotWritten() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> CompactForm.write(new Before(null, 1), Before.class))
        .withMessage("A Before without name");
  }

  @Test
  void bytesOfOthersAreRefusedAndTakeNoMemory() throws IOException {
    byte[] whole =
        CompactForm.write(
            new Now("name", 1, Optional.of("b"), true, 2, List.of("x", "y")), Now.class);
    Random random = new Random(7);
    for (int end = 1; end < whole.length; end++) {
      byte[] cut = Arrays.copyOf(whole, end);
      assertThatThrownBy(() -> CompactForm.read(cut, Now.class))
          .isInstanceOf(RuntimeException.class);
    }
    for (int turn = 0; turn < 2_000; turn++) {
      byte[] noise = new byte[1 + random.nextInt(60)];
      random.nextBytes(noise);
      noise[0] = CompactForm.FIRST_BYTE;
      try {
        CompactForm.read(noise, Report.class);
      } catch (RuntimeException refused) {
        assertThat(refused).isNotInstanceOf(NullPointerException.class);
      }
    }
  }

  @Test
  void statementsWithinStatementsHaveAnEnd() {
    Value deep = new Value.Count(1);
    for (int depth = 0; depth < 150; depth++) {
      deep = new Value.Said(new Coded("a.b", List.of(new Coded.Argument("c", deep))));
    }
    byte[] written = CompactForm.write(new Holder(deep), Holder.class);

    assertThatIllegalArgumentException()
        .isThrownBy(() -> CompactForm.read(written, Holder.class))
        .withMessageContaining("too deep");
  }

  record Holder(Value value) {}

  @Test
  void aTextThatComesAgainIsWrittenOnce() {
    List<String> often = new ArrayList<>();
    for (int i = 0; i < 100; i++) {
      often.add("Council Directive 66/402/EEC");
    }
    byte[] written =
        CompactForm.write(new Now("a", 1, Optional.empty(), true, 2, often), Now.class);

    assertThat(written).hasSizeLessThan(160);
  }
}
