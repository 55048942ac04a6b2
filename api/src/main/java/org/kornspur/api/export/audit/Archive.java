package org.kornspur.api.export.audit;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.kornspur.ingest.contract.Fingerprint;

/** A ZIP file that remembers what was put into it, with SHA-256 of each file. */
final class Archive {
  private static final int LONGEST_NAME = 80;

  private final ZipOutputStream zip;
  private final Instant madeAt;
  private final List<Line> lines = new ArrayList<>();
  private final Set<String> paths = new HashSet<>();

  /**
   * A file of the archive.
   *
   * @param about what it is, in words; empty where its name says it
   */
  record Line(String path, String sha256, String about) {}

  /** Writes the content of a file. */
  interface Content {
    void write(OutputStream out) throws IOException;
  }

  Archive(OutputStream out, Instant madeAt) {
    this.zip = new ZipOutputStream(out, StandardCharsets.UTF_8);
    this.madeAt = madeAt;
  }

  /** Puts a file into it. */
  void add(String path, String about, Content content) throws IOException {
    MessageDigest digest = Fingerprint.sha256();
    begin(path);
    // what makes a PDF closes the stream that it writes to
    content.write(
        new DigestOutputStream(
            new FilterOutputStream(zip) {
              @Override
              public void write(byte[] bytes, int from, int length) throws IOException {
                zip.write(bytes, from, length);
              }

              @Override
              public void close() {}
            },
            digest));
    zip.closeEntry();
    lines.add(new Line(path, HexFormat.of().formatHex(digest.digest()), about));
  }

  void add(String path, String about, byte[] content) throws IOException {
    add(path, about, out -> out.write(content));
  }

  /** Puts the last file into it, which is not listed itself, and ends it. */
  void end(String path, String content) throws IOException {
    begin(path);
    zip.write(content.getBytes(StandardCharsets.UTF_8));
    zip.closeEntry();
    zip.finish();
    zip.flush();
  }

  /** All so far, in the order in which they came. */
  List<Line> lines() {
    return List.copyOf(lines);
  }

  /** A path for something with this id, which no other thing has. */
  String path(String folder, String id, String ending) {
    String name = id.replaceAll("[^A-Za-z0-9._-]", "_");
    String front = folder + name.substring(0, Math.min(name.length(), LONGEST_NAME));
    String path = front + ending;
    for (int again = 2; !paths.add(path); again++) {
      path = front + "_" + again + ending;
    }
    return path;
  }

  private void begin(String path) throws IOException {
    ZipEntry entry = new ZipEntry(path);
    entry.setTimeLocal(madeAt.atOffset(ZoneOffset.UTC).toLocalDateTime());
    zip.putNextEntry(entry);
  }
}
