package org.kornspur.api.storage;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * A folder that one process has for itself. The operating system lets go of the lock when the
 * process ends, however it ends.
 */
public final class DataFolder implements AutoCloseable {

  private static final String LOCK_FILE = "in-use.lock";

  private final Path path;
  private final FileChannel channel;

  private DataFolder(Path path, FileChannel channel) {
    this.path = path;
    this.channel = channel;
  }

  /**
   * Takes a folder, and makes it where it is not there.
   *
   * @throws CannotStart if another process has it, or it cannot be written
   */
  public static DataFolder take(Path folder) {
    Path path = folder.toAbsolutePath().normalize();
    Path lockFile = path.resolve(LOCK_FILE);
    try {
      Files.createDirectories(path);
      FileChannel channel =
          FileChannel.open(lockFile, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      if (lock(channel) == null) {
        channel.close();
        throw new CannotStart(
            "Data folder "
                + path
                + " is in use: another run holds "
                + lockFile
                + ". Stop that run, or start this one with another data folder",
            null);
      }
      return new DataFolder(path, channel);
    } catch (IOException e) {
      throw new CannotStart(
          "Data folder "
              + path
              + " cannot be written: "
              + e
              + ". Give a folder on a local disk that this user may write to",
          e);
    }
  }

  private static FileLock lock(FileChannel channel) throws IOException {
    try {
      return channel.tryLock();
    } catch (OverlappingFileLockException e) {
      return null; // held by this very process
    }
  }

  public Path path() {
    return path;
  }

  @Override
  public void close() {
    try {
      channel.close();
    } catch (IOException e) {
      throw new IllegalStateException("Cannot let go of data folder " + path + ": " + e, e);
    }
  }
}
