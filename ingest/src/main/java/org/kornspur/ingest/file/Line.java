package org.kornspur.ingest.file;

/**
 * One line of a file.
 *
 * @param number from 1
 * @param bytes the line without its end; of a line over the limit, its beginning
 * @param length bytes of the whole line
 */
@SuppressWarnings("ArrayRecordComponent") // bytes on their way; nobody compares lines
record Line(long number, byte[] bytes, long length) {

  /** Whether the line is longer than may be read. */
  boolean isTooLong() {
    return length > bytes.length;
  }
}
