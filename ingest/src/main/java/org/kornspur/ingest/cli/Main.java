package org.kornspur.ingest.cli;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.kornspur.ingest.file.LoadCommand;
import org.kornspur.ingest.verify.VerifyCommand;

/**
 * {@code verify …} verifies the log or a proof; anything else loads a folder of facts. {@code
 * --help} prints how either is called.
 */
public final class Main {

  private static final String VERIFY = "verify";
  private static final String HELP = "help";
  private static final Set<String> HELP_OPTIONS = Set.of("--help", "-h");

  private Main() {}

  /** Ends the process with the exit code of the command; 0 where help was asked for. */
  public static void main(String... arguments) {
    List<String> given = Arrays.asList(arguments);
    boolean verifies = given.indexOf(VERIFY) == 0 || given.equals(List.of(HELP, VERIFY));
    if (given.indexOf(HELP) == 0 || given.stream().anyMatch(HELP_OPTIONS::contains)) {
      System.out.print(verifies ? VerifyCommand.usage() : LoadCommand.usage());
      System.out.flush();
    } else if (verifies) {
      System.setProperty("org.slf4j.simpleLogger.defaultLogLevel", "error");
      System.exit(VerifyCommand.run(System.out, System.err, given.subList(1, given.size())));
    } else {
      LoadCommand.main(arguments);
    }
  }
}
