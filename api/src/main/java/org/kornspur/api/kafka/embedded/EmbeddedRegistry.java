package org.kornspur.api.kafka.embedded;

import com.sun.net.httpserver.BasicAuthenticator;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Function;
import org.apache.avro.Schema;
import org.kornspur.api.kafka.embedded.SchemaLog.LogFailure;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.ingest.registry.SchemaLedger;

/**
 * A schema registry in this process, for a run on one machine: a {@link SchemaLedger} behind the
 * part of the Confluent REST interface that serializers use, on the loopback address. Its state is
 * the compacted topic {@value SchemaLog#TOPIC}; a registration is answered after the broker has it.
 * Compatibility is always full and transitive.
 *
 * <p>One process writes the topic, as one process has the broker.
 */
public final class EmbeddedRegistry implements AutoCloseable {

  private final SchemaLedger ledger;
  private final SchemaLog log;
  private final HttpServer server;
  private final ExecutorService workers;

  /** Registrations follow one another; questions do not wait for them. */
  private final Object registering = new Object();

  private EmbeddedRegistry(
      SchemaLedger ledger, SchemaLog log, HttpServer server, BrokerLogins logins) {
    this.ledger = ledger;
    this.log = log;
    this.server = server;
    this.workers = Executors.newFixedThreadPool(4, EmbeddedRegistry::worker);
    server.setExecutor(workers);
    server
        .createContext("/", this::answer)
        .setAuthenticator(
            new BasicAuthenticator("kornspur") {
              @Override
              public boolean checkCredentials(String user, String password) {
                return logins.registryTakes(user, password);
              }
            });
  }

  /**
   * Reads the log to its end, then takes requests.
   *
   * @param clientSettings with which a Kafka client reaches the broker that keeps the log
   * @param port to listen on, or 0 for any free one
   * @param logins who may ask and register; nobody else is answered
   * @throws CannotStart if the broker does not answer, its log contradicts itself, or the port is
   *     taken
   */
  public static EmbeddedRegistry start(
      Map<String, ?> clientSettings, int port, BrokerLogins logins) {
    SchemaLog log = new SchemaLog(clientSettings);
    try {
      SchemaLedger ledger = new SchemaLedger();
      log.readOn(ledger::apply);
      log.restoreOverwritten();
      EmbeddedRegistry registry = new EmbeddedRegistry(ledger, log, listening(port), logins);
      registry.server.start();
      return registry;
    } catch (LogFailure | IllegalArgumentException e) {
      log.close();
      throw new CannotStart(
          "The schema registry did not start: "
              + e.getMessage()
              + ". Restore the data folder from a copy, or start with an empty one and load the"
              + " files again",
          e);
    } catch (CannotStart e) {
      log.close();
      throw e;
    }
  }

  /** Base address for {@code schema.registry.url}. */
  public String url() {
    return "http://" + LoopbackPorts.HOST + ":" + server.getAddress().getPort();
  }

  /** Stops answering. What is registered stays in the log. */
  @Override
  public void close() {
    server.stop(0);
    workers.shutdown();
    synchronized (registering) {
      log.close();
    }
  }

  RegistryAnswer register(String subject, Schema schema) {
    synchronized (registering) {
      try {
        // A write that seemed to fail may have arrived: decide on what the log really holds.
        readLog();
        SchemaLedger.Decision decision;
        synchronized (ledger) {
          decision = ledger.decide(subject, schema);
        }
        if (decision instanceof SchemaLedger.Incompatible refusal) {
          return RegistryAnswer.incompatible(subject, refusal.messages());
        }
        if (decision instanceof SchemaLedger.Held held) {
          return RegistryAnswer.id(held.entry().id());
        }
        SchemaLedger.Entry entry = ((SchemaLedger.Addition) decision).entry();
        log.append(entry);
        synchronized (ledger) {
          ledger.apply(entry);
        }
        return RegistryAnswer.id(entry.id());
      } catch (LogFailure e) {
        return RegistryAnswer.storeFailed(e.getMessage());
      }
    }
  }

  /** Whether a schema would be taken; with every version, whichever is asked for. */
  RegistryAnswer compare(String subject, Schema schema) {
    synchronized (ledger) {
      return RegistryAnswer.compatible(
          ledger.decide(subject, schema) instanceof SchemaLedger.Incompatible refused
              ? refused.messages()
              : List.of());
    }
  }

  RegistryAnswer find(String subject, Schema schema) {
    synchronized (ledger) {
      Optional<SchemaLedger.Entry> entry = ledger.find(subject, schema);
      if (entry.isPresent()) {
        return RegistryAnswer.entry(entry.get());
      }
      return ledger.holds(subject)
          ? RegistryAnswer.noSchema("Subject " + subject + " does not hold this schema")
          : RegistryAnswer.noSubject(subject);
    }
  }

  /** What is asked of all that is registered, with nothing registered meanwhile. */
  RegistryAnswer asked(Function<SchemaLedger, RegistryAnswer> question) {
    synchronized (ledger) {
      return question.apply(ledger);
    }
  }

  RegistryAnswer byId(int id) {
    synchronized (ledger) {
      return ledger
          .byId(id)
          .map(RegistryAnswer::schema)
          .orElseGet(() -> RegistryAnswer.noSchema("No schema has id " + id));
    }
  }

  private void readLog() throws LogFailure {
    log.readOn(
        entry -> {
          synchronized (ledger) {
            ledger.apply(entry);
          }
        });
  }

  private void answer(HttpExchange exchange) throws IOException {
    try (exchange) {
      RegistryAnswer answer = RegistryRoutes.answer(this, exchange);
      byte[] body = answer.bytes();
      exchange.getResponseHeaders().set("Content-Type", RegistryAnswer.MEDIA_TYPE);
      exchange.sendResponseHeaders(answer.status(), body.length);
      exchange.getResponseBody().write(body);
    }
  }

  private static HttpServer listening(int port) {
    try {
      return HttpServer.create(
          new InetSocketAddress(InetAddress.getByName(LoopbackPorts.HOST), port), 0);
    } catch (IOException e) {
      throw LoopbackPorts.taken(port, e);
    }
  }

  private static Thread worker(Runnable work) {
    Thread thread = new Thread(work, "schema-registry");
    thread.setDaemon(true);
    return thread;
  }
}
