package org.kornspur.ingest.file;

import java.io.PrintStream;

/** Shows a load on the console: a bar that moves on a terminal, a line a file elsewhere. */
final class ConsoleProgress implements LoadProgress {

  private static final int WIDTH = 30;
  private static final long REDRAW_NANOS = 100_000_000L;

  private final PrintStream console;
  private final boolean terminal;
  private String file = "";
  private int number;
  private int of;
  private long drawnAt;

  ConsoleProgress(PrintStream console, boolean terminal) {
    this.console = console;
    this.terminal = terminal;
  }

  @Override
  public void begins(String file, int number, int of) {
    this.file = file;
    this.number = number;
    this.of = of;
    if (!terminal) {
      console.println("[" + number + "/" + of + "] " + file);
    }
  }

  @Override
  public void took(long accepted, long refused) {
    long now = System.nanoTime();
    if (terminal && now - drawnAt > REDRAW_NANOS) {
      drawnAt = now;
      draw(accepted, refused);
    }
  }

  /** Leaves the line of the bar. */
  void ends(LoadReport report) {
    if (terminal) {
      number = of;
      draw(report.accepted(), report.refused());
      console.println();
    }
  }

  private void draw(long accepted, long refused) {
    int done = of == 0 ? WIDTH : WIDTH * number / of;
    console.printf(
        "\r[%s%s] file %d of %d, %d accepted, %d refused  %-40.40s",
        "#".repeat(done), "-".repeat(WIDTH - done), number, of, accepted, refused, file);
    console.flush();
  }
}
