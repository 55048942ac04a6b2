package org.kornspur.api.command.table;

import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.EngineSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.storage.SecretFile;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.DetectedTable;

/**
 * What people said of columns whose names are of no field, for their next table: by enterprise, so
 * that colleagues need not say it again, and by kind of fact. It is a help and no record: it lies
 * in a file of this instance, and what cannot be read is forgotten.
 */
@ApplicationScoped
public class RememberedColumns {
  private static final Logger LOG = Logger.getLogger(RememberedColumns.class);
  private static final int MOST = 5_000;

  private final Path file;
  private final ObjectMapper json;
  private Map<Column, String> paths;

  /**
   * A column of a kind of fact.
   *
   * @param owner enterprise of who said it; the person where bound to none
   */
  record Column(String owner, String kind, String name) {}

  /** A line of the file; an empty path leaves the column out. */
  record Line(String owner, String kind, String name, String path) {}

  @Inject
  RememberedColumns(EngineSettings settings, ObjectMapper json) {
    this(settings.dataFolder().resolve("columns.json"), json);
  }

  RememberedColumns(Path file, ObjectMapper json) {
    this.file = file;
    this.json = json;
  }

  /** Keeps what a person said of the columns of a table whose rows are recorded. */
  synchronized void keep(Caller caller, DetectedTable form, Map<String, String> said) {
    Map<Column, String> known = paths();
    boolean isNew = false;
    for (DetectedTable.Sheet sheet : form.sheets()) {
      for (DetectedTable.Column column : sheet.columns()) {
        String path = said.get(column.name());
        if (path != null) {
          isNew |= !path.equals(known.put(column(caller, sheet.kind(), column.name()), path));
        }
      }
    }
    if (isNew) {
      write();
    }
  }

  /** What was said before of the columns of a table that are of no field, by their names. */
  synchronized Map<String, String> of(Caller caller, DetectedTable form) {
    Map<String, String> found = new LinkedHashMap<>();
    for (DetectedTable.Sheet sheet : form.sheets()) {
      for (DetectedTable.Column column : sheet.unknown()) {
        Optional.ofNullable(paths().get(column(caller, sheet.kind(), column.name())))
            .ifPresent(path -> found.put(column.name(), path));
      }
    }
    return found;
  }

  private static Column column(Caller caller, FactType kind, String name) {
    return new Column(caller.enterpriseId().orElse(caller.personId()), kind.contractName(), name);
  }

  private Map<Column, String> paths() {
    if (paths == null) {
      paths =
          new LinkedHashMap<>() {
            @Override
            protected boolean removeEldestEntry(Map.Entry<Column, String> eldest) {
              return size() > MOST;
            }
          };
      read().forEach(line -> paths.put(new Column(line.owner, line.kind, line.name), line.path));
    }
    return paths;
  }

  private List<Line> read() {
    if (!Files.exists(file)) {
      return List.of();
    }
    try {
      return json.readValue(file.toFile(), new TypeReference<List<Line>>() {});
    } catch (IOException unreadable) {
      LOG.warnf("What was said of columns is forgotten: %s cannot be read, %s", file, unreadable);
      return List.of();
    }
  }

  private void write() {
    List<Line> lines =
        paths.entrySet().stream()
            .map(
                one ->
                    new Line(
                        one.getKey().owner, one.getKey().kind, one.getKey().name, one.getValue()))
            .toList();
    try {
      SecretFile.replace(file, json.writeValueAsBytes(lines));
    } catch (IOException unwritten) {
      LOG.warnf("What was said of columns is not kept: %s", unwritten);
    }
  }
}
