package org.kornspur.api;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.attribute.PosixFilePermissions;
import org.kornspur.api.packaged.OneMachine;

/** A machine that knows what the tests on it have brought, and nothing else. */
public final class EmptyMachine extends SharedMachine {

  @Override
  protected OneMachine prepared() throws IOException {
    OneMachine machine =
        new OneMachine(TestFolder.emptied("empty-machine"))
            .with("KORNSPUR_TRUST_TOPIC_PRODUCERS", "false")
            .option("-Xmx1g");
    // open to others, as earlier releases made it
    Files.setPosixFilePermissions(
        machine.dataFolder(), PosixFilePermissions.fromString("rwxr-xr-x"));
    return machine;
  }
}
