package org.kornspur.ingest.file;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import java.util.Optional;
import org.kornspur.ingest.json.JsonText;

/**
 * Cuts a stream into lines and holds no more than one of them: a line over {@link #LONGEST} is
 * passed over but for its beginning. Lines end in LF or CR LF; a byte order mark before the first
 * is left out.
 */
final class LineReader {

  /** Longest line, in bytes. */
  static final int LONGEST = JsonText.LONGEST_FACT_BYTES;

  /** What is kept of a line that is too long, in bytes. */
  static final int KEPT_OF_TOO_LONG = 65_536;

  private static final byte[] BYTE_ORDER_MARK = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};

  private final InputStream source;
  private final byte[] buffer = new byte[65_536];
  private int position;
  private int filled;
  private long number;

  LineReader(InputStream source) {
    this.source = source;
  }

  /** The next line, or nothing at the end. */
  Optional<Line> next() throws IOException {
    if (position == filled && !fill()) {
      return Optional.empty();
    }
    ByteArrayOutputStream kept = new ByteArrayOutputStream();
    long length = 0;
    boolean ended = false;
    while (!ended && (position < filled || fill())) {
      int end = position;
      while (end < filled && buffer[end] != '\n') {
        end++;
      }
      int piece = end - position;
      kept.write(buffer, position, Math.min(piece, LONGEST + 1 - kept.size()));
      length += piece;
      ended = end < filled;
      position = ended ? end + 1 : end;
    }
    number++;
    return Optional.of(line(kept.toByteArray(), length));
  }

  private Line line(byte[] kept, long length) {
    if (length > LONGEST) {
      return new Line(number, Arrays.copyOf(kept, KEPT_OF_TOO_LONG), length);
    }
    int from = number == 1 && startsWithByteOrderMark(kept) ? BYTE_ORDER_MARK.length : 0;
    int to = kept.length;
    if (to > from && kept[to - 1] == '\r') {
      to--;
    }
    byte[] bytes = Arrays.copyOfRange(kept, from, to);
    return new Line(number, bytes, bytes.length);
  }

  private boolean fill() throws IOException {
    filled = Math.max(0, source.read(buffer));
    position = 0;
    return filled > 0;
  }

  private static boolean startsWithByteOrderMark(byte[] bytes) {
    return bytes.length >= BYTE_ORDER_MARK.length
        && Arrays.equals(
            bytes, 0, BYTE_ORDER_MARK.length, BYTE_ORDER_MARK, 0, BYTE_ORDER_MARK.length);
  }
}
