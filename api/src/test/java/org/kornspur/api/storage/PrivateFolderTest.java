package org.kornspur.api.storage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PrivateFolderTest {

  @Test
  void aNewFolderIsItsOwnersAlone(@TempDir Path temporary) throws Exception {
    Path folder = temporary.resolve("a").resolve("b");
    assertThat(PrivateFolder.make(folder)).isZero();
    assertThat(modeOf(folder)).isEqualTo("rwx------");
    assertThat(PrivateFolder.make(folder)).as("the second start").isZero();
  }

  @Test
  void aFolderOfAnEarlierReleaseIsClosedWithAllThatIsInIt(@TempDir Path temporary)
      throws Exception {
    Path folder = made(temporary.resolve("data"), "rwxr-xr-x");
    Path inner = made(folder.resolve("broker"), "rwxr-xr-x");
    Path log = file(inner.resolve("0.log"), "rw-rw-r--");
    Path key = file(folder.resolve("key"), "rw-------");
    Path program = file(folder.resolve("program"), "r-xr-xr-x");
    assertThat(PrivateFolder.make(folder)).as("folders and files that were open").isEqualTo(4);
    assertThat(modeOf(folder)).isEqualTo("rwx------");
    assertThat(modeOf(inner)).isEqualTo("rwx------");
    assertThat(modeOf(log)).isEqualTo("rw-------");
    assertThat(modeOf(key)).isEqualTo("rw-------");
    assertThat(modeOf(program)).as("gets no right that it had not").isEqualTo("r-x------");
  }

  @Test
  void whatALinkLeadsToIsLeftAlone(@TempDir Path temporary) throws Exception {
    Path outside = file(temporary.resolve("outside"), "rw-r--r--");
    Path outsideFolder = made(temporary.resolve("folder"), "rwxr-xr-x");
    Path folder = made(temporary.resolve("data"), "rwxr-xr-x");
    Files.createSymbolicLink(folder.resolve("link"), outside);
    Files.createSymbolicLink(folder.resolve("link-to-folder"), outsideFolder);
    Files.createSymbolicLink(folder.resolve("link-to-nothing"), temporary.resolve("nothing"));
    PrivateFolder.make(folder);
    assertThat(modeOf(outside)).isEqualTo("rw-r--r--");
    assertThat(modeOf(outsideFolder)).isEqualTo("rwxr-xr-x");
  }

  @Test
  void aFileInItsPlaceIsNamed(@TempDir Path temporary) throws Exception {
    Path file = file(temporary.resolve("file"), "rw-r--r--");
    assertThatThrownBy(() -> PrivateFolder.make(file))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining(file.toString())
        .hasMessageContaining("Give a folder");
  }

  private static Path made(Path folder, String mode) throws IOException {
    return Files.setPosixFilePermissions(
        Files.createDirectory(folder), PosixFilePermissions.fromString(mode));
  }

  private static Path file(Path file, String mode) throws IOException {
    return Files.setPosixFilePermissions(
        Files.createFile(file), PosixFilePermissions.fromString(mode));
  }

  private static String modeOf(Path path) throws IOException {
    return PosixFilePermissions.toString(Files.getPosixFilePermissions(path));
  }
}
