package org.kornspur.ingest.file;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.ReadResult;

/**
 * One input of a file, read.
 *
 * @param line where it begins, from 1
 * @param original its bytes, unchanged
 */
@SuppressWarnings("ArrayRecordComponent") // bytes on their way; nobody compares inputs
record Input(long line, byte[] original, ReadResult result) {

  /** A refusal for one reason that concerns the input as a whole. */
  static Input refused(
      long line, byte[] original, String description, String limit, String remedy) {
    return new Input(
        line,
        original,
        new ReadResult.Refused(
            List.of(new Problem("", Problem.described(description), limit, remedy))));
  }

  static Input tooLong(Line line) {
    return refused(
        line.number(),
        line.bytes(),
        "a line of "
            + line.length()
            + " bytes, of which the first "
            + line.bytes().length
            + " are kept",
        "at most " + LineReader.LONGEST + " bytes a line",
        "Give each fact its own line, and thin out the corners of a large outline");
  }

  static Input notUtf8(long line, byte[] original) {
    return refused(
        line,
        original,
        "bytes that are not UTF-8",
        "text in UTF-8",
        "Save the file again with the encoding UTF-8");
  }

  /** The text of bytes in UTF-8, or nothing where they are none. */
  static Optional<String> textOf(byte[] bytes) {
    try {
      return Optional.of(
          StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString());
    } catch (CharacterCodingException e) {
      return Optional.empty();
    }
  }
}
