package org.kornspur.ingest.file;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.FileProblem;
import org.kornspur.ingest.problem.Given;

/**
 * One input of a file, read.
 *
 * @param line where it begins, from 1
 * @param original its bytes, unchanged
 */
@SuppressWarnings("ArrayRecordComponent") // bytes on their way; nobody compares inputs
record FileInput(long line, byte[] original, ReadResult result) {

  /** A refusal for one reason that concerns the input as a whole. */
  static FileInput refused(long line, byte[] original, Given given, FileProblem reason) {
    return new FileInput(
        line, original, new ReadResult.Refused(List.of(Problem.of("", given, reason))));
  }

  static FileInput tooLong(Line line) {
    return refused(
        line.number(),
        line.bytes(),
        new Given.LongLine(line.length(), line.bytes().length),
        new FileProblem.LineTooLong(LineReader.LONGEST));
  }

  static FileInput notUtf8(long line, byte[] original) {
    return refused(
        line, original, new Given.BytesNotUtf8(original.length), new FileProblem.NotUtf8());
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
