package org.kornspur.ingest.demo;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;

/**
 * Facts as they are gathered, each under the file that will hold it. A view of the same book writes
 * into one folder.
 */
final class Book {
  private final SortedMap<String, List<SpecificRecord>> byFile;
  private final SortedMap<String, String> rawTexts;
  private final String folder;

  Book() {
    this(new TreeMap<>(), new TreeMap<>(), "");
  }

  private Book(
      SortedMap<String, List<SpecificRecord>> byFile,
      SortedMap<String, String> rawTexts,
      String folder) {
    this.byFile = byFile;
    this.rawTexts = rawTexts;
    this.folder = folder;
  }

  /** The same book, opened at a folder below this one. */
  Book in(String name) {
    return new Book(byFile, rawTexts, folder + name + "/");
  }

  /** The same book, opened at the folder of a harvest year, where this one is not a story's. */
  Book season(int year) {
    return folder.isEmpty() ? in(Integer.toString(year)) : this;
  }

  /** Into the CSV file of its type. */
  void add(SpecificRecord fact) {
    addTo(FactType.of(fact).contractName() + ".csv", fact);
  }

  /** Into the line-by-line JSON that a telephone posts from the field. */
  void addByPhone(SpecificRecord fact) {
    addTo("phone.ndjson", fact);
  }

  /** Into a JSON file of its type. */
  void addNested(SpecificRecord fact) {
    addTo(FactType.of(fact).contractName() + ".json", fact);
  }

  /** A file whose text is no plain list of facts. */
  void addText(String file, String text) {
    rawTexts.put(folder + file, text);
  }

  /** The facts of one file so far, by its path below {@code demo-events/}. */
  List<SpecificRecord> factsIn(String path) {
    return List.copyOf(byFile.getOrDefault(path, List.of()));
  }

  /** Every fact, once, without those of files that were added as text. */
  List<SpecificRecord> facts() {
    return byFile.values().stream().flatMap(Collection::stream).toList();
  }

  /** Text of every file by its path below {@code demo-events/}. */
  SortedMap<String, String> texts() {
    SortedMap<String, String> texts = new TreeMap<>(rawTexts);
    byFile.forEach((path, facts) -> texts.put(path, text(path, facts)));
    return texts;
  }

  private void addTo(String file, SpecificRecord fact) {
    byFile.computeIfAbsent(folder + file, path -> new ArrayList<>()).add(fact);
  }

  private static String text(String path, List<SpecificRecord> facts) {
    if (path.endsWith(".csv")) {
      return FactFiles.csv(facts);
    }
    return path.endsWith(".ndjson") ? FactFiles.ndjson(facts) : FactFiles.json(facts);
  }
}
