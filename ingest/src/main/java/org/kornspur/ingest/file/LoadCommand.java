package org.kornspur.ingest.file;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.time.Clock;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.KafkaException;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.publish.PublishFailed;

/**
 * Loads a folder of fact files into Kafka from the command line; see {@link LoadOptions#USAGE}.
 * Loading the same folder again is harmless: a fact with the same id counts once.
 */
public final class LoadCommand {

  static final int ALL_ACCEPTED = 0;
  static final int FAILED = 1;
  static final int SOME_REFUSED = 2;

  private static final FactSink NOWHERE =
      new FactSink() {
        @Override
        public void accept(SpecificRecord fact) {}

        @Override
        public void refuse(QuarantineEntry entry) {}
      };

  private LoadCommand() {}

  /** How it is called, in lines for a person. */
  public static String usage() {
    return LoadOptions.USAGE;
  }

  /** Ends the process with 0 where all was accepted, 2 where some was refused, 1 on failure. */
  @SuppressWarnings(
      "SystemConsoleNull") // where Java 22 gives a console always, the bar shows always
  public static void main(String... arguments) {
    System.setProperty("org.slf4j.simpleLogger.defaultLogLevel", "error");
    System.exit(run(System.out, System.err, System.console() != null, arguments));
  }

  static int run(PrintStream out, PrintStream err, boolean terminal, String... arguments) {
    LoadOptions options;
    try {
      options = LoadOptions.parse(arguments);
    } catch (IllegalArgumentException | IOException e) {
      err.println(e.getMessage());
      err.print(LoadOptions.USAGE);
      return FAILED;
    }
    try {
      ConsoleProgress progress = new ConsoleProgress(err, terminal);
      LoadReport report = load(options, progress);
      progress.ends(report);
      out.print(report.text());
      out.flush();
      if (options.report().isPresent()) {
        Files.writeString(options.report().get(), report.text());
      }
      return report.refused() == 0 ? ALL_ACCEPTED : SOME_REFUSED;
    } catch (IOException e) {
      err.println("Cannot read or write " + e.getMessage() + ". Check the path and permissions.");
    } catch (PublishFailed e) {
      err.println(e.getMessage() + ".");
    } catch (KafkaException e) {
      Throwable root = e.getCause() == null ? e : e.getCause();
      err.println(
          "No connection to Kafka: "
              + root.getMessage()
              + ". Check the addresses, and that --client names the file with the log-in.");
    }
    return FAILED;
  }

  private static LoadReport load(LoadOptions options, LoadProgress progress) throws IOException {
    if (options.checkOnly()) {
      return FolderLoader.load(options.folder(), Clock.systemUTC(), NOWHERE, progress);
    }
    try (FactPublisher publisher = FactPublisher.connect(options.producer())) {
      return FolderLoader.load(options.folder(), Clock.systemUTC(), publisher, progress);
    }
  }
}
