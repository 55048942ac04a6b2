package org.kornspur.api.runtime;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.CompletionException;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import org.apache.kafka.common.errors.NotControllerException;
import org.apache.kafka.common.errors.UnknownServerException;
import org.junit.jupiter.api.Test;

class ControllerNotYetActiveTest {
  private static final NotControllerException NOT_YET =
      new NotControllerException("No controller appears to be active.");

  @Test
  void theOneHarmlessLineIsPassedOverAndNoOther() {
    assertThat(isWritten("kafka.server.ControllerApis", NOT_YET)).isFalse();
    assertThat(isWritten("kafka.server.ControllerApis", new CompletionException(NOT_YET)))
        .isFalse();
    assertThat(isWritten("kafka.server.ControllerApis", new UnknownServerException("x"))).isTrue();
    assertThat(isWritten("kafka.server.ControllerApis", null)).isTrue();
    assertThat(isWritten("org.kornspur.api.engine.KafkaEngine", NOT_YET)).isTrue();
  }

  private static boolean isWritten(String logger, Throwable thrown) {
    LogRecord line = new LogRecord(Level.SEVERE, "Unexpected error handling request");
    line.setLoggerName(logger);
    line.setThrown(thrown);
    return new ControllerNotYetActive().isLoggable(line);
  }
}
