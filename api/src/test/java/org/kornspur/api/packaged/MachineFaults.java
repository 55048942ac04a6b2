package org.kornspur.api.packaged;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.List;
import org.kornspur.api.Program;

/**
 * A clock and a disk that fail when a test says so, for the processes that it starts: a small
 * library between them and the C library, compiled here.
 */
final class MachineFaults {
  private static final String SOURCE = "machine-faults.c";
  private static final int CLOCK_OFF = 0;
  private static final int DISK_ERROR = 1;

  private final Path library;
  private final Path numbers;

  private MachineFaults(Path library, Path numbers) {
    this.library = library;
    this.numbers = numbers;
  }

  /** Compiles the library into a folder; nothing fails yet. */
  static MachineFaults in(Path folder) throws IOException, InterruptedException {
    Path source = folder.resolve(SOURCE);
    try (InputStream resource = MachineFaults.class.getResourceAsStream(SOURCE)) {
      Files.copy(resource, source);
    }
    Path library = folder.resolve("machine-faults.so").toAbsolutePath();
    Process compiler =
        new ProcessBuilder(
                List.of(
                    Program.C_COMPILER.find().orElseThrow().toString(),
                    "-shared",
                    "-fPIC",
                    "-O2",
                    "-o",
                    library.toString(),
                    source.toString(),
                    "-ldl"))
            .inheritIO()
            .start();
    if (compiler.waitFor() != 0) {
      throw new IllegalStateException("The compiler ended with " + compiler.exitValue());
    }
    MachineFaults faults =
        new MachineFaults(library, folder.resolve("machine-faults").toAbsolutePath());
    faults.setClockOff(Duration.ZERO);
    faults.heal();
    return faults;
  }

  /** Has a machine start with them; its data folder is what lies on the disk. */
  void addTo(OneMachine machine) {
    machine.with("LD_PRELOAD", library.toString());
    machine.with("MACHINE_FAULTS", numbers.toString());
    machine.with("MACHINE_FAULTS_FOLDER", machine.dataFolder().toAbsolutePath().toString());
  }

  /** How far the clock is from the right time, in processes that run too. */
  void setClockOff(Duration by) throws IOException {
    set(CLOCK_OFF, by.toSeconds());
  }

  /**
   * How a disk fails.
   *
   * @see <a href="https://man7.org/linux/man-pages/man3/errno.3.html">errno(3)</a>; numbers of
   *     Linux
   */
  enum DiskError {
    FULL(28, "No space left on device"),
    BROKEN(5, "Input/output error"),
    READ_ONLY(30, "Read-only file system");

    private final int number;
    final String text;

    DiskError(int number, String text) {
      this.number = number;
      this.text = text;
    }
  }

  /** From now on nothing can be written. */
  void breakDisk(DiskError error) throws IOException {
    set(DISK_ERROR, error.number);
  }

  /** From now on all can be written again. */
  void heal() throws IOException {
    set(DISK_ERROR, 0);
  }

  private void set(int which, long number) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(Long.BYTES).order(ByteOrder.nativeOrder());
    try (FileChannel file =
        FileChannel.open(numbers, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
      file.write(bytes.putLong(number).flip(), (long) which * Long.BYTES);
    }
  }
}
