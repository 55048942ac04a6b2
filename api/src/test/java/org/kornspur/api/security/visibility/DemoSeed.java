package org.kornspur.api.security.visibility;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * Who grew what, and which seed went where, read from the demo's own CSV files and from nothing of
 * the program: the oracle for what a multiplier may see.
 */
final class DemoSeed {
  private final Map<String, String> growerOfCrop = new HashMap<>();
  private final Map<String, Set<String>> parents = new HashMap<>();
  private final Map<String, Set<String>> children = new HashMap<>();
  private final Set<String> all = new TreeSet<>();

  private DemoSeed() {}

  /** Reads every CSV below these folders. */
  static DemoSeed read(List<Path> folders) throws IOException {
    DemoSeed seed = new DemoSeed();
    for (Path folder : folders) {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.filter(path -> path.toString().endsWith(".csv")).toList()) {
          seed.read(file);
        }
      }
    }
    return seed;
  }

  /** Ids of all crops and lots. */
  Set<String> all() {
    return all;
  }

  /** Crops that an enterprise grows and lots that come from these alone. */
  Set<String> ownOf(String enterpriseId) {
    Set<String> own = new TreeSet<>();
    for (String id : all) {
      if (isOwn(id, enterpriseId)) {
        own.add(id);
      }
    }
    return own;
  }

  /** These, and what is one step before or after. */
  Set<String> withNeighbours(Set<String> own) {
    Set<String> seen = new TreeSet<>(own);
    for (String id : own) {
      seen.addAll(parents.getOrDefault(id, Set.of()));
      seen.addAll(children.getOrDefault(id, Set.of()));
    }
    return seen;
  }

  private boolean isOwn(String id, String enterpriseId) {
    if (growerOfCrop.containsKey(id)) {
      return growerOfCrop.get(id).equals(enterpriseId);
    }
    Set<String> from = parents.getOrDefault(id, Set.of());
    return !from.isEmpty() && from.stream().allMatch(parent -> isOwn(parent, enterpriseId));
  }

  private void read(Path file) throws IOException {
    try (CSVParser rows =
        CSVParser.parse(
            Files.readString(file),
            CSVFormat.DEFAULT.builder().setHeader().setSkipHeaderRecord(true).get())) {
      String type = file.getFileName().toString().replace(".csv", "");
      for (CSVRecord row : rows) {
        read(type, row);
      }
    }
  }

  private void read(String type, CSVRecord row) {
    switch (type) {
      case "FieldCropDeclared" -> {
        all.add(row.get("cropId"));
        growerOfCrop.put(row.get("cropId"), row.get("enterpriseId"));
      }
      case "LotDeclared" -> all.add(row.get("lotId"));
      case "Sowing" -> lots(row.get("sown")).forEach(lot -> edge(lot, row.get("cropId")));
      case "Harvest" -> edge(row.get("cropId"), row.get("lotId"));
      case "Conditioning" ->
          lots(row.get("inputs"))
              .forEach(in -> lots(row.get("outputs")).forEach(out -> edge(in, out)));
      case "LotSplit" -> lots(row.get("parts")).forEach(part -> edge(row.get("fromLotId"), part));
      case "LotMerge" -> lots(row.get("inputs")).forEach(lot -> edge(lot, row.get("intoLotId")));
      case "Blend" ->
          Stream.of("females", "pollinators")
              .forEach(
                  side -> lots(row.get(side)).forEach(lot -> edge(lot, row.get("blendLotId"))));
      default -> {
        // says nothing of where seed went
      }
    }
  }

  private void edge(String from, String to) {
    all.add(from);
    all.add(to);
    parents.computeIfAbsent(to, id -> new HashSet<>()).add(from);
    children.computeIfAbsent(from, id -> new HashSet<>()).add(to);
  }

  private static List<String> lots(String field) {
    return Arrays.stream(field.split(";", -1)).map(part -> part.split("=", 2)[0]).toList();
  }
}
