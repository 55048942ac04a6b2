package org.kornspur.api;

import java.io.IOException;
import org.kornspur.api.cluster.OneMachine;

/** A machine that knows what the tests on it have brought, and nothing else. */
public final class EmptyMachine extends SharedMachine {

  @Override
  OneMachine prepared() throws IOException {
    return new OneMachine(TestFolder.emptied("empty-machine"))
        .with("KORNSPUR_TRUST_TOPIC_PRODUCERS", "false");
  }
}
