package org.kornspur.api.kafka;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.contract.PersonName;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.stream.ChainPositions.Position;
import org.kornspur.processors.stream.RegisterEntry;

/** The engine on Kafka Streams. */
@ApplicationScoped
public class KafkaEngine implements Engine {
  @Inject ProcessorsLifecycle lifecycle;
  @Inject StoreQueries stores;
  @Inject EngineSettings settings;

  @Override
  public boolean isReady() {
    return lifecycle.isReady();
  }

  @Override
  public boolean hasFailed() {
    return lifecycle.hasFailed();
  }

  @Override
  public String condition() {
    return lifecycle.condition();
  }

  /**
   * Copies the data folder into a folder of its own within the backup folder.
   *
   * @throws BackupRefused if this site has no facts of its own, no backup folder, or another backup
   *     is under way
   * @throws IOException if it cannot be written
   */
  public Backup.Made backUp() throws Exception {
    return Backup.make(settings, processors());
  }

  @Override
  public WireFormat wire() {
    return processors().wire();
  }

  @Override
  public void publish(List<? extends SpecificRecord> facts) {
    FactPublisher publisher = processors().publisher();
    await(facts.stream().map(publisher::publish).toList());
  }

  @Override
  public void quarantine(QuarantineEntry entry) {
    await(List.of(processors().publisher().hold(entry)));
  }

  @Override
  public void keep(PersonName person) {
    await(List.of(processors().publisher().keep(person)));
  }

  @Override
  public void forget(String personId) {
    await(List.of(processors().publisher().forget(personId)));
  }

  private static void await(List<CompletableFuture<Void>> sent) {
    try {
      CompletableFuture.allOf(sent.toArray(CompletableFuture[]::new)).join();
    } catch (CompletionException failed) {
      throw new NotReady(new NotReadyDetail.NotTaken(String.valueOf(failed.getCause())), 5);
    }
  }

  @Override
  public Optional<RegisterEntry> registered(String factId) {
    return stores.registered(factId);
  }

  @Override
  public List<Position> positions(String factId) {
    return stores.positions(factId);
  }

  @Override
  public List<Entry> dossier(Subject subject) {
    return stores.dossier(subject);
  }

  @Override
  public List<Report> reports(Subject subject) {
    return stores.reports(subject);
  }

  @Override
  public Pedigree pedigree() {
    return stores.pedigree();
  }

  @Override
  public Map<String, Object> consumerSettings() {
    Map<String, Object> consumer = new HashMap<>(processors().clientSettings());
    consumer.put(ConsumerConfig.ISOLATION_LEVEL_CONFIG, "read_committed");
    consumer.put(ConsumerConfig.AUTO_OFFSET_RESET_CONFIG, "earliest");
    consumer.put(ConsumerConfig.ENABLE_AUTO_COMMIT_CONFIG, false);
    return consumer;
  }

  @Override
  public Map<String, Long> lag() {
    return processors().backlog().waiting();
  }

  @Override
  public long factsHeldBack() {
    return processors().backlog().heldBack();
  }

  private RunningProcessors processors() {
    return lifecycle.processors();
  }
}
