package org.kornspur.api.storage;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.util.Set;

/**
 * Files that only the user who runs this program may read (mode 0600), replaced whole or not, or
 * appended to.
 */
public final class SecretFile {
  private static final Set<PosixFilePermission> OWNER_ONLY =
      PosixFilePermissions.fromString("rw-------");
  private static final SecureRandom RANDOM = new SecureRandom();

  private SecretFile() {}

  /** Random bytes kept in a file, made at the first start. */
  public static byte[] loadOrCreate(Path file, int bytes) {
    try {
      if (!Files.exists(file)) {
        byte[] made = new byte[bytes];
        RANDOM.nextBytes(made);
        createWhole(file, made);
      }
      byte[] kept = Files.readAllBytes(file);
      if (kept.length != bytes) {
        throw new IllegalStateException(
            file
                + " holds "
                + kept.length
                + " bytes; expected "
                + bytes
                + ". Move it away, and the next start makes a new one.");
      }
      return kept;
    } catch (IOException e) {
      throw new UncheckedIOException(file + " cannot be read or made: " + e, e);
    }
  }

  /** Puts the content in place of the file; whoever reads sees the old whole or the new whole. */
  public static void replace(Path file, byte[] content) throws IOException {
    Path made = write(file, content);
    try {
      Files.move(made, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } catch (AtomicMoveNotSupportedException e) {
      throw new IOException(file + " is on a file system that cannot move files at once", e);
    } finally {
      Files.deleteIfExists(made);
    }
  }

  /**
   * Writes behind a place in a file, which is made if it is not there; on disk on return.
   *
   * @param end where to write; what is there already is cut off
   */
  public static void append(Path file, long end, byte[] content) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    try (FileChannel channel =
        FileChannel.open(
            file, Set.of(StandardOpenOption.CREATE, StandardOpenOption.WRITE), ownerOnly(folder))) {
      channel.truncate(end).position(end);
      ByteBuffer bytes = ByteBuffer.wrap(content);
      while (bytes.hasRemaining()) {
        channel.write(bytes);
      }
      channel.force(true);
    }
  }

  /** Of several processes that start at once, one makes the file and the others take it. */
  private static void createWhole(Path file, byte[] content) throws IOException {
    Path made = write(file, content);
    try {
      Files.createLink(file, made);
    } catch (FileAlreadyExistsException madeByAnother) {
      return;
    } catch (UnsupportedOperationException | FileSystemException noLinks) {
      Files.move(made, file, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(made);
    }
  }

  private static Path write(Path file, byte[] content) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    Files.createDirectories(folder);
    Path made =
        Files.createTempFile(folder, file.getFileName().toString(), ".tmp", ownerOnly(folder));
    try (FileChannel channel = FileChannel.open(made, StandardOpenOption.WRITE)) {
      channel.write(ByteBuffer.wrap(content));
      channel.force(true);
    }
    return made;
  }

  private static FileAttribute<?>[] ownerOnly(Path folder) {
    return folder.getFileSystem().supportedFileAttributeViews().contains("posix")
        ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(OWNER_ONLY)}
        : new FileAttribute<?>[0];
  }
}
