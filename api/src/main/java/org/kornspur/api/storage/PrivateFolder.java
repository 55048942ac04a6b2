package org.kornspur.api.storage;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.Set;

/**
 * A folder that only the user who runs this program may enter (mode 0700). What Kafka and RocksDB
 * make below it has the modes of their own: it is the folder that keeps others out. On file systems
 * without POSIX permissions nothing is done.
 */
public final class PrivateFolder {

  private static final Set<PosixFilePermission> OWNER_ONLY =
      PosixFilePermissions.fromString("rwx------");

  private PrivateFolder() {}

  /**
   * Makes the folder if it is not there. If it is there and open to others, as earlier releases
   * made it, they lose every right to it and to all that is in it; links are not followed.
   *
   * @return how many files and folders were open to others
   * @throws CannotStart if it cannot be made, or stays open because another user owns it
   */
  public static int make(Path folder) {
    Path path = folder.toAbsolutePath().normalize();
    try {
      if (!Files.isDirectory(path)) {
        makeNew(path);
      }
      return isPosix(path) && close(path) ? 1 + closeAllIn(path) : 0;
    } catch (IOException e) {
      throw new CannotStart(
          "Data folder "
              + path
              + " cannot be made private to this user: "
              + e
              + ". Give a folder on a local disk that this user owns",
          e);
    }
  }

  /**
   * Makes a folder that is not there.
   *
   * @throws java.nio.file.FileAlreadyExistsException if it is
   * @throws IOException if it cannot be made
   */
  public static void makeNew(Path folder) throws IOException {
    Path path = folder.toAbsolutePath().normalize();
    if (path.getParent() != null) {
      Files.createDirectories(path.getParent());
    }
    if (isPosix(path)) {
      Files.createDirectory(path, PosixFilePermissions.asFileAttribute(OWNER_ONLY));
    } else {
      Files.createDirectory(path);
    }
  }

  private static boolean isPosix(Path path) {
    return path.getFileSystem().supportedFileAttributeViews().contains("posix");
  }

  /** Takes every right from others; false if they had none. */
  private static boolean close(Path path) throws IOException {
    Set<PosixFilePermission> rights = Files.getPosixFilePermissions(path);
    Set<PosixFilePermission> owners = EnumSet.copyOf(OWNER_ONLY);
    owners.retainAll(rights);
    if (owners.equals(rights)) {
      return false;
    }
    Files.setPosixFilePermissions(path, owners);
    return true;
  }

  private static int closeAllIn(Path folder) throws IOException {
    int[] closed = new int[1];
    Files.walkFileTree(
        folder,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path path, BasicFileAttributes attributes) {
            return closed(path);
          }

          @Override
          public FileVisitResult visitFile(Path path, BasicFileAttributes attributes) {
            // The rights of a link are those of what it leads to, which may be anywhere.
            return attributes.isSymbolicLink() ? FileVisitResult.CONTINUE : closed(path);
          }

          /** What is gone or belongs to another user stays as it is, behind the closed folder. */
          @Override
          public FileVisitResult visitFileFailed(Path path, IOException fault) {
            return FileVisitResult.CONTINUE;
          }

          private FileVisitResult closed(Path path) {
            try {
              closed[0] += close(path) ? 1 : 0;
            } catch (IOException e) {
              return visitFileFailed(path, e);
            }
            return FileVisitResult.CONTINUE;
          }
        });
    return closed[0];
  }
}
