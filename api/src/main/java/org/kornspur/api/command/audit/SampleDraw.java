package org.kornspur.api.command.audit;

import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import org.kornspur.ingest.contract.Fingerprint;

/**
 * A random sample that anybody can draw again: ids are put into the order of SHA-256 over the seed
 * and the id, one behind the other in UTF-8, written in hexadecimal; the first so many are drawn.
 *
 * @param size how many are drawn
 * @param seed chosen before it was known what it draws
 */
public record SampleDraw(int size, String seed) {

  /** The ids drawn, in the order in which they were. */
  public List<String> of(Collection<String> ids) {
    return ids.stream().distinct().sorted(Comparator.comparing(this::place)).limit(size).toList();
  }

  /** Where an id stands in the order. */
  String place(String id) {
    return HexFormat.of()
        .formatHex(Fingerprint.sha256().digest((seed + id).getBytes(StandardCharsets.UTF_8)));
  }
}
