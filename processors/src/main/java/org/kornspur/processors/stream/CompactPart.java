package org.kornspur.processors.stream;

/** How values of one type are written in a {@link CompactForm} and read. */
interface CompactPart {
  void write(Object value, CompactOutput out);

  Object read(CompactInput in);
}
