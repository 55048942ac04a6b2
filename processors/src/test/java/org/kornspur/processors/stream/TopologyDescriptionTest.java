package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;

/**
 * A new version can take over the state of the old one only if nodes, stores and topics keep their
 * names and places. So the whole description is held in a file: change the file only together with
 * a plan for the state of running sites.
 */
class TopologyDescriptionTest {

  @Test
  void theTopologyIsTheOneThatRunningSitesHoldStateFor() throws IOException {
    Judge judge = new Judge(id -> Optional.of(new NoLimits(id)), List.of());
    String described =
        KornspurTopology.build(
                new WireFormat(new LocalSchemaRegistry()),
                () -> judge,
                TrustedKeys.of(),
                StateStores.onDisk(),
                DrivenTopology.SEAL)
            .describe()
            .toString();
    Files.createDirectories(Path.of("target", "checks"));
    Files.writeString(Path.of("target", "checks", "topology.txt"), described);

    assertThat(described).isEqualTo(golden());
  }

  private static String golden() throws IOException {
    try (InputStream file = TopologyDescriptionTest.class.getResourceAsStream("topology.txt")) {
      return new String(file.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
