package org.kornspur.processors.stream;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** Tables of PostgreSQL, asked and written many rows at a time: each statement takes columns. */
final class SeasonTables {
  private final Connection database;

  /** A column that goes to the database as one array. */
  record Column(String type, Object[] values) {
    static Column texts(Collection<String> values) {
      return new Column("text", values.toArray(String[]::new));
    }

    static Column numbers(Collection<Double> values) {
      return new Column("float8", values.toArray(Double[]::new));
    }

    static Column records(Collection<byte[]> values) {
      return new Column("bytea", values.toArray(byte[][]::new));
    }
  }

  /** Takes what a row says. */
  interface RowReader<T> {
    T read(ResultSet row) throws SQLException;
  }

  SeasonTables(Connection database) throws SQLException, IOException {
    this.database = database;
    database.setAutoCommit(true);
    try (InputStream script = getClass().getResourceAsStream("season.sql");
        var statement = database.createStatement()) {
      statement.execute(new String(script.readAllBytes(), StandardCharsets.UTF_8));
    }
    database.setAutoCommit(false);
  }

  void write(String sql, Column... columns) throws SQLException {
    try (PreparedStatement statement = prepared(sql, columns)) {
      statement.execute();
    }
  }

  <T> List<T> read(RowReader<T> reader, String sql, Column... columns) throws SQLException {
    List<T> found = new ArrayList<>();
    try (PreparedStatement statement = prepared(sql, columns);
        ResultSet rows = statement.executeQuery()) {
      while (rows.next()) {
        found.add(reader.read(rows));
      }
    }
    return found;
  }

  private PreparedStatement prepared(String sql, Column... columns) throws SQLException {
    PreparedStatement statement = database.prepareStatement(sql);
    for (int i = 0; i < columns.length; i++) {
      statement.setArray(i + 1, database.createArrayOf(columns[i].type(), columns[i].values()));
    }
    return statement;
  }

  void commit() throws SQLException {
    database.commit();
  }
}
