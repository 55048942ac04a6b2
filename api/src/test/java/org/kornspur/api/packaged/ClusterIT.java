package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.stream.Collectors;
import org.apache.avro.SchemaBuilder;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.DescribeTopicsOptions;
import org.apache.kafka.clients.admin.TopicDescription;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.acl.AclOperation;
import org.apache.kafka.common.errors.SaslAuthenticationException;
import org.apache.kafka.common.errors.TimeoutException;
import org.apache.kafka.common.errors.TopicAuthorizationException;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.ingest.registry.HttpSchemaRegistry;
import org.kornspur.ingest.registry.IncompatibleSchema;
import org.kornspur.ingest.registry.RegistryConfig;
import org.kornspur.ingest.registry.SchemaRegistry;
import org.kornspur.processors.stream.Topics;

/**
 * The layout of {@code docker-compose.yml} as processes: three brokers, a real schema registry on
 * them, two instances. One instance and one broker are killed on the way.
 */
class ClusterIT {

  private static final int BATCH = 100;

  // Long enough for a machine that is busy with other tests; how long it took is reported.
  private static final Duration TAKEOVER_LIMIT = Duration.ofMinutes(5);
  private static final Duration INTAKE_LIMIT = Duration.ofMinutes(5);
  private static final Duration REST_LIMIT = Duration.ofMinutes(10);

  @Test
  @Timeout(2400)
  void shouldStandWhereOneProcessStandsThoughAnInstanceAndABrokerAreKilled(@TempDir Path folder)
      throws Exception {
    List<String> facts = DemoFacts.part();
    int half = facts.size() / 2;
    UndisturbedRun expected = UndisturbedRun.ofAPart();

    try (LoopbackCluster cluster = new LoopbackCluster(ComposeFile.read(), folder);
        Backlog backlog = cluster.backlog()) {
      Deadline started = Deadline.in(Duration.ofMinutes(5), "the cluster is up");
      cluster.start();
      Report.line("Cluster of six processes up: %.1f s", started.elapsed().toMillis() / 1000.0);
      Site first = new Site(cluster.url("kornspur-1"));
      Site second = new Site(cluster.url("kornspur-2"));

      post(facts.subList(0, half), first);
      first.awaitRest(backlog, REST_LIMIT);
      second.awaitRest(backlog, REST_LIMIT);
      Map<String, JsonNode> before = first.everything();
      assertThat(second.everything()).isEqualTo(before);
      assertWorkIsShared(first, second, subjects(before));
      assertSafetyOf(cluster);
      assertRightsOn(cluster);

      cluster.process("kornspur-1").kill();
      Deadline takeover = Deadline.in(TAKEOVER_LIMIT, "the other instance answers everything");
      assertThat(second.everything()).isEqualTo(before);
      Report.line(
          "Instance killed; the other answers everything after %.1f s",
          takeover.elapsed().toMillis() / 1000.0);
      assertThat(takeover.elapsed()).isLessThan(TAKEOVER_LIMIT);

      cluster.process("kafka-1").kill();
      Duration longest = post(facts.subList(half, facts.size()), second);
      Report.line(
          "Broker killed; slowest batch of %d facts took %.1f s",
          BATCH, longest.toMillis() / 1000.0);
      second.awaitRest(backlog, REST_LIMIT);
      expected.assertSameAs(second.everything());
    }
  }

  /** Each instance holds dossiers that the other does not, and yet both answered for all. */
  private static void assertWorkIsShared(Site first, Site second, Set<String> subjects)
      throws Exception {
    for (Site site : List.of(first, second)) {
      String asked = dossierOf(subjects.iterator().next());
      assertThat(site.get(asked).status()).as("without the secret").isEqualTo(403);
    }
    Set<String> atFirst = heldBy(first, subjects);
    Set<String> atSecond = heldBy(second, subjects);
    Report.line("Dossiers held: %d and %d", atFirst.size(), atSecond.size());
    assertThat(atFirst).isNotEmpty().doesNotContainAnyElementsOf(atSecond);
    assertThat(atSecond).isNotEmpty();
  }

  private static Set<String> heldBy(Site site, Set<String> subjects) throws Exception {
    Set<String> held = new HashSet<>();
    for (String subject : subjects) {
      String asked = dossierOf(subject);
      if (site.getAsInstance(asked, LoopbackCluster.INSTANCE_SECRET).status() == 200) {
        held.add(subject);
      }
    }
    return held;
  }

  private static String dossierOf(String subject) {
    return "/internal/dossier?key=" + URLEncoder.encode(subject, StandardCharsets.UTF_8);
  }

  private static Set<String> subjects(Map<String, JsonNode> everything) {
    return everything.entrySet().stream()
        .filter(answer -> !answer.getKey().endsWith("/facts"))
        .map(answer -> answer.getValue().path("subject").asText())
        .collect(Collectors.toSet());
  }

  /**
   * Three copies of every topic, also of the registry's; and a breaking schema is refused by the
   * rule that the file sets.
   */
  private static void assertSafetyOf(LoopbackCluster cluster) throws Exception {
    try (Admin admin =
        Admin.create(cluster.clientSettings("kornspur", "KORNSPUR_KAFKA_PASSWORD"))) {
      Set<String> names = admin.listTopics().names().get();
      assertThat(names).contains("kornspur.facts", "kornspur.standings", "kafkasql-journal");
      for (TopicDescription topic : admin.describeTopics(names).allTopicNames().get().values()) {
        assertThat(topic.partitions())
            .as(topic.name())
            .allMatch(partition -> partition.replicas().size() == 3);
      }
    }
    SchemaRegistry registry = new HttpSchemaRegistry(RegistryConfig.at(cluster.registryUrl()));
    registry.register("probe", SchemaBuilder.record("Probe").fields().requiredInt("x").endRecord());
    assertThatThrownBy(
            () ->
                registry.register(
                    "probe",
                    SchemaBuilder.record("Probe").fields().requiredString("x").endRecord()))
        .isInstanceOf(IncompatibleSchema.class);
  }

  /** The program writes every topic, who brings facts two, and nobody else reaches a broker. */
  private static void assertRightsOn(LoopbackCluster cluster) throws Exception {
    Map<String, Object> program = cluster.clientSettings("kornspur", "KORNSPUR_KAFKA_PASSWORD");
    Map<String, Object> client = cluster.clientSettings("client", "KORNSPUR_CLIENT_PASSWORD");
    List<String> all = Topics.all().stream().map(Topics::topicName).toList();
    assertThat(writableBy(program, all)).containsExactlyInAnyOrderElementsOf(all);
    assertThat(writableBy(client, all))
        .containsExactlyInAnyOrder("kornspur.facts", "kornspur.quarantine");
    assertThat(failureOf(client, "kornspur.by-subject"))
        .hasRootCauseInstanceOf(TopicAuthorizationException.class);
    assertThat(
            failureOf(
                cluster.clientSettings("client", "KORNSPUR_KAFKA_PASSWORD"), "kornspur.facts"))
        .hasRootCauseInstanceOf(SaslAuthenticationException.class);
    assertThat(failureOf(Map.of("bootstrap.servers", cluster.bootstrapServers()), "kornspur.facts"))
        .hasRootCauseInstanceOf(TimeoutException.class);
  }

  /** As the brokers themselves tell it. */
  private static Set<String> writableBy(Map<String, Object> settings, List<String> topics)
      throws Exception {
    Set<String> writable = new HashSet<>();
    try (Admin admin = Admin.create(settings)) {
      for (var described :
          admin
              .describeTopics(topics, new DescribeTopicsOptions().includeAuthorizedOperations(true))
              .topicNameValues()
              .entrySet()) {
        try {
          if (described.getValue().get().authorizedOperations().contains(AclOperation.WRITE)) {
            writable.add(described.getKey());
          }
        } catch (ExecutionException refused) {
          assertThat(refused).hasCauseInstanceOf(TopicAuthorizationException.class);
        }
      }
    }
    return writable;
  }

  private static Throwable failureOf(Map<String, Object> settings, String topic) {
    Map<String, Object> impatient = new HashMap<>(settings);
    impatient.put("max.block.ms", 10_000);
    try (KafkaProducer<byte[], byte[]> producer =
        new KafkaProducer<>(impatient, new ByteArraySerializer(), new ByteArraySerializer())) {
      return catchThrowable(() -> producer.send(new ProducerRecord<>(topic, new byte[1])).get());
    }
  }

  /** Posts in batches, each again until it is in; tells how long the slowest took. */
  private static Duration post(List<String> facts, Site site) throws Exception {
    Duration longest = Duration.ZERO;
    for (int from = 0; from < facts.size(); from += BATCH) {
      List<String> batch = facts.subList(from, Math.min(from + BATCH, facts.size()));
      Deadline deadline = Deadline.in(INTAKE_LIMIT, "a batch of facts is in");
      String last = "nothing";
      boolean in = false;
      while (!in) {
        if (deadline.passed()) {
          throw deadline.missed(last);
        }
        try {
          Site.Answer answer = site.postLines("/api/v1/facts", String.join("\n", batch));
          last = answer.toString();
          in = answer.status() < 300 && answer.body().path("unsent").asInt(-1) == 0;
        } catch (IOException noAnswer) {
          last = noAnswer.toString();
        }
      }
      longest = deadline.elapsed().compareTo(longest) > 0 ? deadline.elapsed() : longest;
    }
    return longest;
  }
}
