package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.Tag;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.standing.LotStanding;

/**
 * A fact that the checks let through may be as odd as it likes: it must never stop the stream, nor
 * make a standing depend on the order in which facts came. The demo's facts are mixed up (names
 * swapped, numbers pushed to their ends) and those that still pass the checks are streamed under
 * the real gates, in one order and in another.
 */
@Tag("slow")
class NothingStopsTheStreamTest {
  private static final int FACTS = 80;
  private static final String[] NAMES = {"N1", "N2", "N3", "N4", "N5"};
  private static final double[] ENDS = {0, 1, 2, 50, 99, 100, 1_000, 1e6, 0.001};
  private static final List<SpecificRecord> DEMO = JudgedDemo.facts();

  @Property(tries = 40, shrinking = ShrinkingMode.OFF)
  void oddFactsAreJudgedOrRefusedAndNothingStops(@ForAll Random random) {
    List<SpecificRecord> odd = new ArrayList<>();
    for (int i = 0; i < FACTS; i++) {
      ObjectNode fact = AvroJson.write(DEMO.get(random.nextInt(DEMO.size())));
      mixUp(fact, random);
      ObjectNode header = ((ObjectNode) fact.get("header")).put("factId", "odd-" + i);
      int other = random.nextInt(FACTS);
      if (random.nextInt(6) == 0 && other != i) {
        header.putObject("correction").put("supersedes", "odd-" + other).put("reason", "a slip");
      } else {
        header.putNull("correction");
      }
      if (FactParser.accept(fact) instanceof ReadResult.Fact read) {
        odd.add(DrivenTopology.by(DrivenTopology.QUALITY, read.fact()));
      }
    }
    assertThat(odd).isNotEmpty();

    assertTimeoutPreemptively(
        DrivenTopology.LONGEST_UNREST,
        () -> {
          Map<String, LotStanding> inOneOrder = standingsOf(odd);
          Collections.shuffle(odd, random);
          assertThat(inOneOrder).isNotEmpty().isEqualTo(standingsOf(odd));
        });
  }

  private static Map<String, LotStanding> standingsOf(List<SpecificRecord> facts) {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      return topology.acceptAsSent(facts.toArray(SpecificRecord[]::new)).standings();
    }
  }

  private static void mixUp(JsonNode branch, Random random) {
    if (branch instanceof ObjectNode fields) {
      List<String> names = new ArrayList<>();
      fields.fieldNames().forEachRemaining(names::add);
      names.forEach(name -> mixUpField(fields, name, random));
    } else if (branch instanceof ArrayNode elements) {
      elements.forEach(element -> mixUp(element, random));
      if (random.nextInt(8) == 0 && elements.size() > 1) {
        elements.remove(0);
      }
    }
  }

  private static void mixUpField(ObjectNode fields, String name, Random random) {
    JsonNode value = fields.get(name);
    boolean names = name.matches("lotId|cropId|.*LotId|sampleId") && value.isTextual();
    if (names && random.nextInt(3) > 0) {
      fields.put(name, NAMES[random.nextInt(NAMES.length)]);
    } else if (value.isNumber() && random.nextInt(5) == 0) {
      double end = ENDS[random.nextInt(ENDS.length)];
      fields.set(
          name,
          value.isInt()
              ? JsonNodeFactory.instance.numberNode((int) end)
              : JsonNodeFactory.instance.numberNode(end));
    } else if (value.isNull() && random.nextInt(6) == 0) {
      fields.put(name, 1);
    } else {
      mixUp(value, random);
    }
  }
}
