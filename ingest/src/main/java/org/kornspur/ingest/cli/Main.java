package org.kornspur.ingest.cli;

import java.util.Arrays;
import java.util.List;
import org.kornspur.ingest.file.LoadFolder;
import org.kornspur.ingest.verify.VerifyCommand;

/** {@code verify …} verifies the log or a proof; anything else loads a folder of facts. */
public final class Main {

  private static final String VERIFY = "verify";

  private Main() {}

  /** Ends the process with the exit code of the command. */
  public static void main(String... arguments) {
    if (arguments.length > 0 && arguments[0].equals(VERIFY)) {
      System.setProperty("org.slf4j.simpleLogger.defaultLogLevel", "error");
      List<String> rest = Arrays.asList(arguments).subList(1, arguments.length);
      System.exit(VerifyCommand.run(System.out, System.err, rest));
    }
    LoadFolder.main(arguments);
  }
}
