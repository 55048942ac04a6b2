package org.kornspur.ingest.intake;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import org.apache.avro.io.BinaryEncoder;
import org.apache.avro.io.EncoderFactory;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificDatumWriter;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Submission;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.InputProblem;

/**
 * How large a fact may be as a whole. Each of its values and lists can be within its own limit and
 * the fact still be more than goes through the stream to every lot that it names.
 */
final class FactSize {

  /**
   * A dispatch with 10,000 numbers of labels takes a fifth of it, and the topic of facts four times
   * as much.
   */
  static final int MOST_BYTES = 1024 * 1024;

  private FactSize() {}

  /**
   * Checks a fact that has every value that its schema demands. What the server added of who
   * brought it is not counted, or it would grow too large after it was found to fit.
   */
  static void check(SpecificRecord fact, Problems into) {
    Submission submission = FactType.headerOf(fact).getSubmission();
    long bytes = bytes(fact) - (submission == null ? 0 : bytes(submission));
    if (bytes > MOST_BYTES) {
      into.add("", new Given.Bytes(bytes), new InputProblem.FactTooLarge(MOST_BYTES));
    }
  }

  private static long bytes(SpecificRecord fact) {
    Counter counter = new Counter();
    BinaryEncoder encoder = EncoderFactory.get().directBinaryEncoder(counter, null);
    try {
      new SpecificDatumWriter<SpecificRecord>(
              fact.getSchema(), SpecificData.getForSchema(fact.getSchema()))
          .write(fact, encoder);
      encoder.flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return counter.bytes;
  }

  private static final class Counter extends OutputStream {
    private long bytes;

    @Override
    public void write(int value) {
      bytes++;
    }

    @Override
    public void write(byte[] values, int offset, int length) {
      bytes += length;
    }
  }
}
