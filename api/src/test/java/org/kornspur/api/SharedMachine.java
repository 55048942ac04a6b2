package org.kornspur.api;

import io.restassured.RestAssured;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.kornspur.api.packaged.OneMachine;

/**
 * The packaged program in a process of its own, which all test classes that ask for the same kind
 * of machine share. It starts with the first of them and ends with the process of the tests. While
 * another kind is asked for it is stopped, because a machine takes a fifth of a processor with
 * nothing to do, and several processes of tests had two each.
 */
public abstract class SharedMachine implements BeforeAllCallback {
  private static final Map<Class<?>, OneMachine> MACHINES = new HashMap<>();

  private static OneMachine current;

  /** The machine before its first start. */
  protected abstract OneMachine prepared() throws Exception;

  @Override
  public final void beforeAll(ExtensionContext context) throws Exception {
    OneMachine machine = MACHINES.get(getClass());
    if (machine == null) {
      machine = prepared();
      MACHINES.put(getClass(), machine);
    }
    if (machine != current) {
      if (current != null) {
        current.stop();
      }
      machine.start();
      machine.awaitReady();
    }
    RestAssured.port = machine.port();
    current = machine;
  }

  /** Where the machine of the running test class keeps its files. */
  public static Path dataFolder() {
    return current.dataFolder();
  }

  /** With what that machine itself reaches its broker. */
  public static Map<String, Object> programSettings() {
    return current.programSettings();
  }

  /** Where the machine of the running test class is, with a slash at the end. */
  public static String root() {
    return "http://127.0.0.1:" + RestAssured.port + "/";
  }
}
