package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import io.opentelemetry.proto.collector.trace.v1.ExportTraceServiceRequest;
import io.opentelemetry.proto.common.v1.KeyValue;
import io.opentelemetry.proto.trace.v1.ResourceSpans;
import io.opentelemetry.proto.trace.v1.Span;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.Waiting;
import org.kornspur.processors.stream.Topics;

/**
 * The packaged application with logs as JSON and traces on, as the manual says. Oracle of the
 * traces: the classes that OpenTelemetry makes of its own protocol (OTLP 1.x).
 */
class LogsAndTracesIT {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String TRACES = "/v1/traces";

  private final List<ResourceSpans> received = new CopyOnWriteArrayList<>();

  @Test
  @Timeout(600)
  void shouldLogJsonAndSendTraces(@TempDir Path folder) throws Exception {
    HttpServer receiver =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    receiver.createContext(TRACES, this::take);
    receiver.start();
    try (OneMachine machine = new OneMachine(folder)) {
      machine
          .with("QUARKUS_LOG_CONSOLE_JSON_ENABLED", "true")
          .with("QUARKUS_OTEL_SDK_DISABLED", "false")
          .with("QUARKUS_OTEL_EXPORTER_OTLP_PROTOCOL", "http/protobuf")
          .with(
              "QUARKUS_OTEL_EXPORTER_OTLP_ENDPOINT",
              "http://127.0.0.1:" + receiver.getAddress().getPort());
      machine.start();
      machine.awaitReady();
      assertThat(machine.site().get("/api/v1/lots/NO-SUCH-LOT").status()).isEqualTo(404);
      Waiting.until(() -> spans().anyMatch(span -> span.getName().contains("/api/v1/lots")));
      int before = machine.logLines().size();
      bringNonsense(machine);
      machine.stop();

      assertSpan();
      assertThat(machine.logLines().subList(before, machine.logLines().size()))
          .filteredOn(line -> line.contains(Topics.FACTS.topicName() + "-"))
          .as("one line of ten records that nobody can read, by two lists, and no stack trace")
          .hasSize(1)
          .noneMatch(line -> line.contains("stackTrace"));
      assertThat(machine.logLines()).hasSizeGreaterThan(3).allSatisfy(LogsAndTracesIT::assertJson);
    } finally {
      receiver.stop(0);
    }
  }

  private static void bringNonsense(OneMachine machine) throws Exception {
    try (KafkaProducer<byte[], byte[]> producer =
        new KafkaProducer<>(
            machine.programSettings(), new ByteArraySerializer(), new ByteArraySerializer())) {
      for (byte number = 0; number < 10; number++) {
        byte[] bytes = {number};
        producer.send(new ProducerRecord<>(Topics.FACTS.topicName(), bytes, bytes)).get();
      }
    }
    Waiting.until(
        () ->
            machine.site().get("/api/v1/quarantine?size=1").body().path("total").asInt() == 10
                && machine.logged(Topics.FACTS.topicName() + "-") > 0);
  }

  private void assertSpan() {
    Span span =
        spans().filter(one -> one.getName().contains("/api/v1/lots")).findFirst().orElseThrow();
    assertThat(span.getKind()).isEqualTo(Span.SpanKind.SPAN_KIND_SERVER);
    assertThat(attribute(span.getAttributesList(), "http.response.status_code")).isEqualTo("404");
    assertThat(attribute(received.get(0).getResource().getAttributesList(), "service.name"))
        .isEqualTo("kornspur");
    assertThat(received.toString()).doesNotContainIgnoringCase("authorization", "basic ");
  }

  private static void assertJson(String line) throws IOException {
    JsonNode entry = JSON.readTree(line);
    assertThat(OffsetDateTime.parse(entry.path("timestamp").asText())).isNotNull();
    assertThat(entry.path("level").asText()).isNotEmpty();
    assertThat(entry.path("loggerName").asText()).isNotEmpty();
    assertThat(entry.path("message").asText()).isNotEmpty();
  }

  private Stream<Span> spans() {
    return received.stream()
        .flatMap(of -> of.getScopeSpansList().stream())
        .flatMap(scope -> scope.getSpansList().stream());
  }

  private static String attribute(List<KeyValue> attributes, String key) {
    return attributes.stream()
        .filter(one -> one.getKey().equals(key))
        .map(one -> one.getValue())
        .map(
            value ->
                value.hasIntValue() ? Long.toString(value.getIntValue()) : value.getStringValue())
        .findFirst()
        .orElse("none");
  }

  private void take(HttpExchange exchange) throws IOException {
    boolean isPacked = "gzip".equals(exchange.getRequestHeaders().getFirst("Content-Encoding"));
    try (InputStream body = exchange.getRequestBody();
        InputStream plain = isPacked ? new GZIPInputStream(body) : body) {
      received.addAll(ExportTraceServiceRequest.parseFrom(plain).getResourceSpansList());
    }
    exchange.sendResponseHeaders(200, -1);
    exchange.close();
  }
}
