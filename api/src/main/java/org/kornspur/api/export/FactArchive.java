package org.kornspur.api.export;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.json.AvroJson;

/**
 * Facts as an archive of files that the loader of folders takes: one file of NDJSON for each kind.
 * Acts of persons are left out, for no loader takes them: they stand under signatures of this site.
 */
final class FactArchive {

  private FactArchive() {}

  static void write(Collection<? extends SpecificRecord> facts, OutputStream out)
      throws IOException {
    Map<FactType, List<SpecificRecord>> byType =
        facts.stream()
            .filter(fact -> !FactType.of(fact).isAct())
            .collect(Collectors.groupingBy(FactType::of, TreeMap::new, Collectors.toList()));
    try (ZipOutputStream zip = new ZipOutputStream(out, StandardCharsets.UTF_8)) {
      for (Map.Entry<FactType, List<SpecificRecord>> ofType : byType.entrySet()) {
        zip.putNextEntry(new ZipEntry(ofType.getKey().contractName() + ".ndjson"));
        for (SpecificRecord fact : ofType.getValue()) {
          zip.write((AvroJson.write(fact) + "\n").getBytes(StandardCharsets.UTF_8));
        }
        zip.closeEntry();
      }
    }
  }
}
