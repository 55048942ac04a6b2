package org.kornspur.processors.benchmark;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.publish.ClientFile;
import org.kornspur.ingest.publish.FactPublisher;

/**
 * Sends copies of the invented enterprise straight to the topic of facts, as fast as the broker
 * takes them: the settings of a client, then the number of the first copy, then how many. It prints
 * how many facts it sent.
 */
public final class FactSender {

  private FactSender() {}

  public static void main(String[] arguments) throws IOException {
    List<SpecificRecord> demo = DemoFacts.once();
    int first = Integer.parseInt(arguments[1]);
    int copies = Integer.parseInt(arguments[2]);
    int sent = 0;
    try (FactPublisher publisher = FactPublisher.connect(ClientFile.read(Path.of(arguments[0])))) {
      for (int copy = first; copy < first + copies; copy++) {
        for (SpecificRecord fact : DemoFacts.copy(demo, copy)) {
          publisher.accept(fact);
          sent++;
        }
      }
    }
    System.out.println(sent);
  }
}
