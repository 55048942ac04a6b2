package org.kornspur.processors.benchmark;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.intake.FactSink;

/** The facts of the invented enterprise, once or as many times as a benchmark needs. */
final class DemoFacts {
  /** Wider than the invented enterprise, so that no copy is a neighbour of another. */
  private static final double COPIES_APART_DEG = 6;

  private static final int COPIES_ROUND_THE_EARTH = 60;
  private static final double ROWS_APART_DEG = 5;

  private DemoFacts() {}

  /** Every fact that can be read, in the order of the files. */
  static List<SpecificRecord> once() {
    List<SpecificRecord> facts = new ArrayList<>();
    try {
      FolderLoader.load(
          folder(),
          Clock.systemUTC(),
          new FactSink() {
            @Override
            public void accept(SpecificRecord fact) {
              facts.add(fact);
            }

            @Override
            public void refuse(QuarantineEntry entry) {
              // the broken files of the invented enterprise are no part of what is timed
            }
          },
          LoadProgress.SILENT);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
    return facts;
  }

  /**
   * The facts of one of many such enterprises: every lot, crop, source, hybrid and fact has an id
   * of its own, and its fields lie where no other copy's do.
   */
  static List<SpecificRecord> copy(List<SpecificRecord> facts, int number) {
    return facts.stream().map(fact -> (SpecificRecord) renamed(fact, number)).toList();
  }

  /** The id that a copy has for an id of the original. */
  static String renamed(String id, int copy) {
    return id + "." + copy;
  }

  private static Path folder() {
    return Stream.of(Path.of("demo-events"), Path.of("..", "demo-events"))
        .filter(Files::isDirectory)
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalStateException(
                    "No folder demo-events in or beside "
                        + Path.of("").toAbsolutePath()
                        + ". Run the benchmark from the root of the project."));
  }

  private static IndexedRecord renamed(SpecificRecord fact, int copy) {
    SpecificRecord own = SpecificData.get().deepCopy(fact.getSchema(), fact);
    rename(own, copy);
    return own;
  }

  private static void rename(IndexedRecord record, int copy) {
    if (record instanceof GeoPoint) {
      double lon = (double) record.get(0) + COPIES_APART_DEG * (copy % COPIES_ROUND_THE_EARTH);
      record.put(0, lon > 180 ? lon - 360 : lon);
      int row = copy / COPIES_ROUND_THE_EARTH;
      record.put(1, (double) record.get(1) - ROWS_APART_DEG * row);
      return;
    }
    for (Schema.Field field : record.getSchema().getFields()) {
      record.put(field.pos(), renamed(field.schema(), record.get(field.pos()), copy));
    }
  }

  private static Object renamed(Schema schema, Object value, int copy) {
    if (value instanceof IndexedRecord record) {
      rename(record, copy);
      return record;
    }
    if (value instanceof List<?> list) {
      Schema element = schema.getElementType();
      return new ArrayList<>(list.stream().map(part -> renamed(element, part, copy)).toList());
    }
    if (value instanceof String text) {
      Schema named =
          schema.isUnion()
              ? schema.getTypes().stream()
                  .filter(type -> type.getType() == Schema.Type.STRING)
                  .findFirst()
                  .orElseThrow()
              : schema;
      return isOwnId(named.getProp("names")) ? renamed(text, copy) : text;
    }
    return value;
  }

  private static boolean isOwnId(String names) {
    return names != null
        && switch (names) {
          case "lot", "crop", "source", "hybrid", "fact", "sample" -> true;
          default -> false;
        };
  }
}
