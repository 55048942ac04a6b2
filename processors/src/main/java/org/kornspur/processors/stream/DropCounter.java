package org.kornspur.processors.stream;

import org.apache.kafka.common.metrics.Sensor;
import org.apache.kafka.streams.processor.api.ProcessorContext;

/** Counters of what is dropped or refused, in the metrics of the task that does it. */
final class DropCounter {

  private DropCounter() {}

  /** A counter with a rate and a total, by what is counted. */
  static Sensor of(ProcessorContext<?, ?> context, String what) {
    return context
        .metrics()
        .addRateTotalSensor(
            "kornspur", context.taskId().toString(), what, Sensor.RecordingLevel.INFO);
  }
}
