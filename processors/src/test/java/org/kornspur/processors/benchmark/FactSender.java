package org.kornspur.processors.benchmark;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.publish.ClientFile;
import org.kornspur.ingest.publish.FactPublisher;

/**
 * Sends copies of the invented enterprise straight to the topic of facts, as fast as the broker
 * takes them: the settings of a client, then the number of the first copy, then how many. It makes
 * them first, prints how many facts they are, and sends them when it is given a line.
 */
public final class FactSender {

  private FactSender() {}

  public static void main(String[] arguments) throws IOException {
    List<SpecificRecord> demo = DemoFacts.once();
    int first = Integer.parseInt(arguments[1]);
    int copies = Integer.parseInt(arguments[2]);
    List<SpecificRecord> facts =
        IntStream.range(first, first + copies)
            .mapToObj(copy -> DemoFacts.copy(demo, copy))
            .flatMap(List::stream)
            .toList();
    try (FactPublisher publisher = FactPublisher.connect(ClientFile.read(Path.of(arguments[0])))) {
      System.out.println(facts.size());
      if (System.in.read() >= 0) {
        facts.forEach(publisher::accept);
      }
    }
  }
}
