package org.kornspur.processors.stream;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.apache.kafka.common.header.Header;
import org.apache.kafka.streams.processor.PunctuationType;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.processor.api.RecordMetadata;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.chain.ChainHead;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.processors.stream.FactChain.Placed;

/** Keeps the chain of one partition: goes on from the head that its store holds. */
final class ChainKeeper implements Processor<byte[], byte[], Placed, Placed> {
  private static final String HEAD = "head";

  private final ChainSettings settings;
  private ProcessorContext<Placed, Placed> context;
  private KeyValueStore<String, byte[]> heads;
  private KeyValueStore<String, byte[]> index;

  ChainKeeper(ChainSettings settings) {
    this.settings = settings;
  }

  @Override
  public void init(ProcessorContext<Placed, Placed> context) {
    this.context = context;
    heads = context.getStateStore(StateStores.CHAIN_HEADS);
    index = context.getStateStore(StateStores.CHAIN_INDEX);
    context.schedule(
        settings.longestUnsigned(), PunctuationType.WALL_CLOCK_TIME, now -> signWhatIsNew());
  }

  @Override
  public void process(Record<byte[], byte[]> record) {
    RecordMetadata place =
        context
            .recordMetadata()
            .orElseThrow(() -> new IllegalStateException("A fact without a place in its topic"));
    ChainHead head = head(place.partition());
    LogRecord.Entry entry = asKept(record, place).entry();
    ChainLink link = head.link(entry);
    ChainPositions.put(index, link);
    send(
        new Placed(link.partition(), link.factId().getBytes(StandardCharsets.UTF_8), link.write()),
        record.timestamp(),
        FactChain.TO_CHAIN);
    keep(head.with(link));
    if (head.unsigned() + 1 >= settings.mostUnsigned()) {
      signWhatIsNew();
    }
  }

  private static LogRecord asKept(Record<byte[], byte[]> record, RecordMetadata place) {
    List<LogRecord.Header> headers = new ArrayList<>();
    for (Header header : record.headers()) {
      if (!ReceiptTime.isOurs(header)) {
        headers.add(new LogRecord.Header(header.key(), header.value()));
      }
    }
    return new LogRecord(
        place.partition(),
        place.offset(),
        ReceiptTime.logged(record.timestamp(), record.headers()),
        record.key(),
        record.value(),
        headers);
  }

  private void signWhatIsNew() {
    ChainHead head = head(context.taskId().partition());
    if (head.unsigned() == 0) {
      return;
    }
    long now = context.currentSystemTimeMs();
    Checkpoint checkpoint = head.sign(settings.key(), Instant.ofEpochMilli(now));
    byte[] key = Long.toString(checkpoint.number()).getBytes(StandardCharsets.US_ASCII);
    send(
        new Placed(checkpoint.partition(), key, checkpoint.write()), now, FactChain.TO_CHECKPOINTS);
    keep(head.with(checkpoint));
  }

  private void send(Placed placed, long timestamp, String sink) {
    context.forward(new Record<>(placed, placed, timestamp), sink);
  }

  private ChainHead head(int partition) {
    byte[] kept = heads.get(HEAD);
    return kept == null ? ChainHead.start(partition) : ChainHead.read(kept);
  }

  private void keep(ChainHead head) {
    heads.put(HEAD, head.write());
  }
}
