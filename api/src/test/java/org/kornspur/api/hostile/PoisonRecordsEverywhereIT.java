package org.kornspur.api.hostile;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;

import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.QuarkusTestProfile;
import io.quarkus.test.junit.TestProfile;
import io.restassured.path.json.JsonPath;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.jboss.logging.Logger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.InProcessProfile;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.packaged.DemoFacts;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.web.PostedFacts;
import org.kornspur.contract.PersonName;
import org.kornspur.contract.PrintedName;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.QuarantineEntries;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.processors.stream.Topics;

/**
 * Records that nothing can be made of, on every topic that the program reads, against the running
 * application with its real broker: processors and lists go on, and a fact that comes afterwards is
 * judged.
 *
 * <p>{@code -Dhostile.records=20000} makes the long run; {@code -Dhostile.seed} repeats one.
 */
@QuarkusTest
@TestProfile(PoisonRecordsEverywhereIT.Poisoned.class)
@ExtendWith(AsPerson.class)
class PoisonRecordsEverywhereIT {
  private static final Logger LOG = Logger.getLogger(PoisonRecordsEverywhereIT.class);
  private static final int RECORDS = Integer.getInteger("hostile.records", 2_000);
  private static final long SEED = Long.getLong("hostile.seed", 20_261_128L);
  private static final String SCHEMAS = "kornspur.schemas";
  private static final List<String> SHAPES =
      List.of(
          "",
          "null",
          "{}",
          "{\"sender\":\"lot:BEFORE\"}",
          "{\"sender\":\"lot:X\",\"report\":{\"kind\":\"parent\"}}",
          "{\"subject\":\"crop:C1\",\"plot\":{}}",
          "{\"supersededFactId\":\"f\",\"byFactId\":null,\"reason\":null}",
          "{\"subject\":\"kornspur.facts-x\",\"version\":1,\"id\":2147483647,\"schema\":\"int\"}",
          "[".repeat(10_000));
  private static final List<String> KEYS =
      List.of("", "lot:BEFORE", "LOT:BEFORE", "lot:BEFORE|f", "cell:2026:1:1", "up|lot:A|lot:B|f");

  /** A machine of its own, so that no other test meets what is written here. */
  public static final class Poisoned implements QuarkusTestProfile {
    @Override
    public Map<String, String> getConfigOverrides() {
      return new InProcessProfile().getConfigOverrides();
    }
  }

  @Inject ProcessorsClient processors;

  @BeforeEach
  void waitUntilReady() {
    PostedFacts.until("/health/ready", answer -> answer.statusCode() == 200);
  }

  @Test
  void processorsAndListsGoOn() throws Exception {
    PostedFacts.bring(List.of(merge("BEFORE")));
    judged("BEFORE");
    Instant start = Instant.now();
    write(RECORDS);
    Instant written = Instant.now();
    PostedFacts.bring(List.of(merge("AFTER")));

    JsonPath after = judged("AFTER");
    assertThat(after.getString("state")).isEqualTo("EVIDENCE_OWED");
    JsonPath health = PostedFacts.until("/health/ready", a -> a.statusCode() == 200).jsonPath();
    assertThat(health.getString("checks.data.engine")).contains("could not be processed");
    assertThat(given().get("/health/live").statusCode()).isEqualTo(200);
    PostedFacts.until("/api/v1/lots/BEFORE", a -> a.statusCode() == 200);
    assertThat(given().get("/api/v1/lots").jsonPath().getInt("total")).isGreaterThan(1);
    assertThat(given().get("/api/v1/quarantine").statusCode()).isEqualTo(200);
    PostedFacts.until("/api/v1/lots/AFTER/trace?direction=back", a -> a.statusCode() == 200);
    PostedFacts.until("/api/v1/lots/AFTER/proof", a -> a.statusCode() == 200);
    PostedFacts.until("/api/v1/log", a -> a.statusCode() == 200);
    assertThat(skippedByFeeds()).isPositive();
    LOG.infof(
        "%d records written in %s, all processed %s later; %s",
        RECORDS,
        java.time.Duration.between(start, written),
        java.time.Duration.between(written, Instant.now()),
        processors.condition());
  }

  @Test
  void whatWasTooLargeToBeKeptIsNotReplayedFromItsBeginning() {
    byte[] key = "large".getBytes(StandardCharsets.UTF_8);
    byte[] value = new byte[QuarantineEntries.MOST_WHOLE_BYTES + 1];
    QuarantineEntry entry =
        QuarantineEntries.held(
            QuarantineOrigin.TOPIC,
            "kornspur.facts partition 0 offset 7",
            Instant.now(),
            List.of(Problem.recorded("", "large", "less", "Send less")),
            key,
            value);
    processors.quarantine(entry);
    String address = "/api/v1/quarantine/" + entry.getEntryId();

    JsonPath kept = PostedFacts.until(address, answer -> answer.statusCode() == 200).jsonPath();
    assertThat(kept.getLong("wholeBytes")).isEqualTo(value.length);
    assertThat(kept.getInt("original.bytes")).isLessThan(10_000);
    given()
        .contentType("application/json")
        .post(address + "/replay")
        .then()
        .statusCode(422)
        .body(containsString("too large to be kept"))
        .body(containsString("kornspur.facts partition 0 offset 7"));
  }

  private void write(int records) throws Exception {
    HostileInputs inputs = new HostileInputs(SEED, DemoFacts.lines());
    Random random = new Random(SEED);
    List<String> topics = new ArrayList<>(Topics.all().stream().map(Topics::topicName).toList());
    topics.add(SCHEMAS);
    List<byte[]> ofOurs = ofOurs(inputs);
    Map<String, Object> settings = new HashMap<>(processors.consumerSettings());
    settings.put("compression.type", "lz4");
    try (var producer =
        new KafkaProducer<>(settings, new ByteArraySerializer(), new ByteArraySerializer())) {
      for (int i = 0; i < records; i++) {
        Hostile record =
            new Hostile(
                topics.get(i % topics.size()),
                key(random, inputs, i),
                value(random, inputs, ofOurs, i),
                random.nextInt(4) == 0);
        for (int header = random.nextInt(3); header > 0; header--) {
          record
              .headers()
              .add("h".repeat(header * 100), inputs.text().getBytes(StandardCharsets.UTF_8));
        }
        var unused = producer.send(record);
      }
      producer.flush();
    }
  }

  /** A tombstone for a subject that this test asks for would be a record like any other. */
  private static byte[] key(Random random, HostileInputs inputs, int number) {
    return switch (random.nextInt(5)) {
      case 0 -> null;
      case 1 -> inputs.harmed(new byte[] {1, (byte) 0xff, 3});
      case 2 -> ("poison-" + number).getBytes(StandardCharsets.UTF_8);
      default -> KEYS.get(random.nextInt(KEYS.size())).getBytes(StandardCharsets.UTF_8);
    };
  }

  private static byte[] value(
      Random random, HostileInputs inputs, List<byte[]> ofOurs, int number) {
    return switch (random.nextInt(6)) {
      case 0 -> number % 3 == 0 ? new byte[0] : inputs.harmed(new byte[200]);
      case 1 -> inputs.harmed(ofOurs.get(random.nextInt(ofOurs.size())));
      case 2 -> inputs.fact(number);
      case 3 -> ofOurs.get(random.nextInt(ofOurs.size()));
      default -> SHAPES.get(random.nextInt(SHAPES.size())).getBytes(StandardCharsets.UTF_8);
    };
  }

  /** Records that mean something on another topic or under another key. */
  private List<byte[]> ofOurs(HostileInputs inputs) {
    List<byte[]> wire = new ArrayList<>();
    for (int i = 0; wire.size() < 20; i++) {
      if (FactParser.accept(inputs.fact(1_000_000 + i)) instanceof ReadResult.Fact read) {
        wire.add(encoded(Topics.FACTS, read.fact()));
      }
    }
    wire.add(
        encoded(
            Topics.PEOPLE,
            new PersonName("poison", List.of(new PrintedName("Invented Name", "00")))));
    return wire;
  }

  private byte[] encoded(Topics topic, SpecificRecord record) {
    return processors.wire().encode(topic.topicName(), record);
  }

  private static JsonPath judged(String lot) {
    return PostedFacts.until(
            "/api/v1/lots/" + lot,
            answer -> answer.statusCode() == 200 && answer.jsonPath().getBoolean("asOf.complete"))
        .jsonPath();
  }

  private static double skippedByFeeds() {
    return given()
        .get("/metrics")
        .asString()
        .lines()
        .filter(line -> line.startsWith("kornspur_feed_skipped{"))
        .mapToDouble(line -> Double.parseDouble(line.substring(line.lastIndexOf(' ') + 1)))
        .sum();
  }

  private static String merge(String lot) {
    return """
    {"type": "LotMerge", "intoLotId": "%s", "inputs": [{"lotId": "%s-A", "massKg": 10},
       {"lotId": "%s-B", "massKg": 10}],
     "header": {"factId": "merge-%s", "recordedBy": "everything",
       "happenedAt": "2026-01-01T00:00:00Z", "recordedAt": "2026-01-01T00:00:00Z",
       "sourceDocument": "poison records"}}\
    """
        .formatted(lot, lot, lot, lot);
  }

  /** The producer's own class takes no record without a time, though brokers do. */
  private static final class Hostile extends ProducerRecord<byte[], byte[]> {
    private final boolean withoutTime;

    Hostile(String topic, byte[] key, byte[] value, boolean withoutTime) {
      super(topic, topic.equals(SCHEMAS) ? 0 : null, key, value);
      this.withoutTime = withoutTime;
    }

    @Override
    public Long timestamp() {
      return withoutTime ? Long.valueOf(-1) : null;
    }
  }
}
