package org.kornspur.processors.stream;

import java.util.Map;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.common.KafkaException;
import org.apache.kafka.common.errors.SerializationException;
import org.apache.kafka.streams.StreamsConfig;
import org.apache.kafka.streams.errors.DeserializationExceptionHandler;
import org.apache.kafka.streams.errors.ErrorHandlerContext;
import org.apache.kafka.streams.errors.ProcessingExceptionHandler;
import org.apache.kafka.streams.processor.api.Record;
import org.kornspur.ingest.registry.RegistryException;
import org.kornspur.ingest.registry.UnknownSchema;

/**
 * What becomes of a record that a source cannot read or a processor cannot process. Where the
 * brokers, the stores or the schema registry failed, nothing is wrong with the record: the thread
 * stops, is replaced, and tries it again. Everything else is the record's own fault, would be the
 * same at every try, and stops the stream for ever; so it is passed over, counted and named.
 *
 * <p>This is the net. What the passing over of a record could make look better than it is, the
 * processors see to themselves: {@link FactIntakeProcessor} puts the record into the quarantine,
 * {@link DossierUpdater} says that evidence is owed.
 */
public final class PoisonRecords
    implements DeserializationExceptionHandler, ProcessingExceptionHandler {
  private static final String COUNTER = "kornspur.skipped-records";

  private SkippedRecords skipped = new SkippedRecords();

  /** Settings of a streams client that make it use this and {@link ReceiptTime}. */
  public static Map<String, Object> settings(SkippedRecords counter) {
    return Map.of(
        StreamsConfig.DESERIALIZATION_EXCEPTION_HANDLER_CLASS_CONFIG,
        PoisonRecords.class,
        StreamsConfig.PROCESSING_EXCEPTION_HANDLER_CLASS_CONFIG,
        PoisonRecords.class,
        StreamsConfig.DEFAULT_TIMESTAMP_EXTRACTOR_CLASS_CONFIG,
        ReceiptTime.class,
        COUNTER,
        counter);
  }

  /** The counter that a streams client was given. */
  static SkippedRecords counter(Map<String, ?> settings) {
    return settings.get(COUNTER) instanceof SkippedRecords shared ? shared : new SkippedRecords();
  }

  @Override
  public void configure(Map<String, ?> settings) {
    skipped = counter(settings);
  }

  @Override
  public DeserializationHandlerResponse handle(
      ErrorHandlerContext context, ConsumerRecord<byte[], byte[]> record, Exception fault) {
    // the store of the pedigree, when it is read again, reports every fault of a record here
    boolean impossibleTime = record.timestamp() < 0;
    if (isNoFaultOfTheRecord(fault) && !impossibleTime) {
      return DeserializationHandlerResponse.FAIL;
    }
    skipped.addUnreadable(record.topic(), record.partition(), record.offset(), fault);
    return DeserializationHandlerResponse.CONTINUE;
  }

  @Override
  public ProcessingHandlerResponse handle(
      ErrorHandlerContext context, Record<?, ?> record, Exception fault) {
    if (isNoFaultOfTheRecord(fault)) {
      return ProcessingHandlerResponse.FAIL;
    }
    skipped.add(
        context.topic(), context.partition(), context.offset(), context.processorNodeId(), fault);
    return ProcessingHandlerResponse.CONTINUE;
  }

  /** Whether what failed lies outside the record: to be tried again, never passed over. */
  static boolean isNoFaultOfTheRecord(Throwable fault) {
    for (Throwable cause = fault; cause != null; cause = cause.getCause()) {
      boolean kafka = cause instanceof KafkaException && !(cause instanceof SerializationException);
      boolean registry = cause instanceof RegistryException && !(cause instanceof UnknownSchema);
      if (kafka || registry || cause instanceof InterruptedException) {
        return true;
      }
    }
    return false;
  }
}
