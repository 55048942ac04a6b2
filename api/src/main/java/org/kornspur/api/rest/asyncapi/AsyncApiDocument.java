package org.kornspur.api.rest.asyncapi;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.avro.Schema;
import org.apache.kafka.common.config.TopicConfig;
import org.kornspur.api.kafka.PublicTopic;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.stream.Topics;

/**
 * The topics that other programs may use, as an AsyncAPI document.
 *
 * <p>Sources: AsyncAPI Specification 3.0.0; AsyncAPI Kafka bindings 0.5.0.
 *
 * @param version of this program
 * @param brokerPort of the embedded broker
 * @param registryPort of the embedded registry
 */
record AsyncApiDocument(String version, int brokerPort, int registryPort) {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String BINDING = "0.5.0";
  private static final String AVRO = "application/vnd.apache.avro+json;version=1.9.0";
  private static final String LOG_IN = "logIn";

  JsonNode json() {
    ObjectNode document = JSON.createObjectNode().put("asyncapi", "3.0.0");
    document
        .putObject("info")
        .put("title", "Kornspur")
        .put("version", version)
        .put(
            "description",
            "Topics that other programs may write to and read. All others are the program's own:"
                + " their form may change with each release. How to write a producer is said at"
                + " /help/producer.")
        .putObject("license")
        .put("name", "Apache-2.0")
        .put("url", "https://www.apache.org/licenses/LICENSE-2.0");
    document.put("defaultContentType", "application/vnd.apache.avro");
    document.putObject("servers").set("broker", server());
    ObjectNode channels = document.putObject("channels");
    ObjectNode operations = document.putObject("operations");
    ObjectNode components = document.putObject("components");
    ObjectNode messages = components.putObject("messages");
    ObjectNode schemas = components.putObject("schemas");
    for (PublicTopic topic : PublicTopic.all()) {
      ObjectNode channel = channels.putObject(name(topic.topic()));
      describe(topic, channel);
      for (Message message : messages(topic.topic())) {
        channel.with("messages").set(message.name(), reference("messages", message.name()));
        messages.set(message.name(), message.json());
        message.schema().ifPresent(schema -> schemas.set(message.name(), avro(schema)));
      }
      if (topic.mayBeWritten()) {
        operations.set(name(topic.topic()) + "Written", operation("receive", topic.topic()));
      }
      if (topic.mayBeRead()) {
        operations.set(name(topic.topic()) + "Read", operation("send", topic.topic()));
      }
    }
    components
        .putObject("securitySchemes")
        .putObject(LOG_IN)
        .put("type", "scramSha512")
        .put("description", "User and password stand in client.properties of the data folder");
    return document;
  }

  private ObjectNode server() {
    ObjectNode server =
        JSON.createObjectNode()
            .put("host", "127.0.0.1:" + brokerPort)
            .put("protocol", "kafka")
            .put("protocolVersion", "4.1")
            .put(
                "description",
                "The broker of one machine, which only programs on that machine reach. On a cluster"
                    + " it is the brokers of the site, with the same topics.");
    server.putArray("security").add(reference("securitySchemes", LOG_IN));
    server
        .putObject("bindings")
        .putObject("kafka")
        .put("schemaRegistryUrl", "http://127.0.0.1:" + registryPort)
        .put("schemaRegistryVendor", "confluent")
        .put("bindingVersion", BINDING);
    return server;
  }

  private static void describe(PublicTopic topic, ObjectNode channel) {
    channel.put("address", topic.topic().topicName()).put("description", about(topic.topic()));
    ObjectNode kafka = channel.putObject("bindings").putObject("kafka");
    kafka.put("topic", topic.topic().topicName()).put("bindingVersion", BINDING);
    ObjectNode settings = kafka.putObject("topicConfiguration");
    settings
        .putArray(TopicConfig.CLEANUP_POLICY_CONFIG)
        .add(topic.settings().get(TopicConfig.CLEANUP_POLICY_CONFIG));
    for (String number :
        List.of(TopicConfig.RETENTION_MS_CONFIG, TopicConfig.MAX_MESSAGE_BYTES_CONFIG)) {
      settings.put(number, Long.parseLong(topic.settings().get(number)));
    }
    // what the bindings have no name for
    channel
        .putObject("x-topic-settings")
        .put(
            TopicConfig.COMPRESSION_TYPE_CONFIG,
            topic.settings().get(TopicConfig.COMPRESSION_TYPE_CONFIG))
        .put(
            TopicConfig.MESSAGE_TIMESTAMP_TYPE_CONFIG,
            topic.settings().get(TopicConfig.MESSAGE_TIMESTAMP_TYPE_CONFIG));
  }

  private static ObjectNode operation(String action, Topics topic) {
    ObjectNode operation = JSON.createObjectNode().put("action", action);
    operation.putObject("channel").put("$ref", "#/channels/" + name(topic));
    return operation;
  }

  /** The last part of its name. */
  private static String name(Topics topic) {
    return topic.topicName().substring(topic.topicName().lastIndexOf('.') + 1);
  }

  private static String about(Topics topic) {
    return switch (topic) {
      case FACTS -> "Facts as they came, of all types, kept for ever. Keyed by the id of the fact.";
      case QUARANTINE -> "Input that a loader refused, with the reasons.";
      case CHAIN -> "The link of each record of the facts, in the same partition.";
      case CHECKPOINTS -> "Signed heads of the chain, in the partition that they are of.";
      default -> throw new IllegalStateException(topic + " is public and not described");
    };
  }

  private static List<Message> messages(Topics topic) {
    return switch (topic) {
      case FACTS ->
          Arrays.stream(FactType.values())
              .filter(type -> !type.isAct())
              .map(type -> new Message(type.contractName(), "header.factId", type.schema()))
              .toList();
      case QUARANTINE ->
          List.of(new Message("QuarantineEntry", "entryId", QuarantineEntry.getClassSchema()));
      case CHAIN -> List.of(new Message("ChainLink", "application/octet-stream"));
      case CHECKPOINTS -> List.of(new Message("Checkpoint", "application/json"));
      default -> List.of();
    };
  }

  /**
   * What is written to a topic.
   *
   * @param contentType of its value
   * @param key field that its key repeats; empty where {@code verify} alone needs the key
   * @param schema empty where the value is no Avro record
   */
  private record Message(
      String name, String contentType, Optional<String> key, Optional<Schema> schema) {

    Message(String name, String key, Schema schema) {
      this(name, "application/vnd.apache.avro", Optional.of(key), Optional.of(schema));
    }

    Message(String name, String contentType) {
      this(name, contentType, Optional.empty(), Optional.empty());
    }

    ObjectNode json() {
      ObjectNode json = JSON.createObjectNode().put("name", name).put("contentType", contentType);
      schema.ifPresent(
          avro -> {
            json.put("title", avro.getFullName());
            Optional.ofNullable(avro.getDoc()).ifPresent(doc -> json.put("summary", doc));
            json.set("payload", reference("schemas", name));
            ObjectNode kafka = json.putObject("bindings").putObject("kafka");
            kafka
                .putObject("key")
                .put("type", "string")
                .put("description", "Equal to " + key.orElseThrow() + ", as UTF-8");
            kafka
                .put("schemaIdLocation", "payload")
                .put("schemaIdPayloadEncoding", "confluent")
                .put("schemaLookupStrategy", "TopicRecordNameStrategy")
                .put("bindingVersion", BINDING);
          });
      return json;
    }
  }

  private static JsonNode avro(Schema schema) {
    try {
      ObjectNode format = JSON.createObjectNode().put("schemaFormat", AVRO);
      format.set("schema", JSON.readTree(schema.toString()));
      return format;
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  private static ObjectNode reference(String kind, String name) {
    return JSON.createObjectNode().put("$ref", "#/components/" + kind + "/" + name);
  }
}
