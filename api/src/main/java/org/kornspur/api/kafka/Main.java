package org.kornspur.api.kafka;

import io.quarkus.runtime.Quarkus;
import io.quarkus.runtime.annotations.QuarkusMain;
import java.util.List;

/** Runs the program; {@code --version} prints which it is and ends. */
@QuarkusMain
public final class Main {
  private static final String VERSION = "--version";

  private Main() {}

  public static void main(String... arguments) {
    if (List.of(arguments).contains(VERSION)) {
      System.out.println("Kornspur " + Main.class.getPackage().getImplementationVersion());
    } else {
      SteadyTime.install();
      Quarkus.run(arguments);
    }
  }
}
