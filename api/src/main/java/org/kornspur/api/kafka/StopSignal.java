package org.kornspur.api.kafka;

import io.quarkus.runtime.Quarkus;
import io.quarkus.runtime.StartupEvent;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import sun.misc.Signal;

/**
 * A stop that was asked for is no failure: the program ends with 0 and not with the 143 by which
 * Java answers SIGTERM, so that whoever watches it can tell the two apart.
 */
@ApplicationScoped
class StopSignal {
  private static final Signal TERMINATE = new Signal("TERM");

  void listen(@Observes StartupEvent started) {
    Signal.handle(TERMINATE, asked -> Quarkus.asyncExit(0));
  }
}
