package org.kornspur.ingest.file;

import java.util.ArrayList;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FactSink;

/** Keeps what a load hands on. */
final class Gathered implements FactSink {

  final List<SpecificRecord> facts = new ArrayList<>();
  final List<QuarantineEntry> refused = new ArrayList<>();

  @Override
  public void accept(SpecificRecord fact) {
    facts.add(fact);
  }

  @Override
  public void refuse(QuarantineEntry entry) {
    refused.add(entry);
  }

  List<String> factIds() {
    return facts.stream().map(fact -> FactType.headerOf(fact).getFactId()).toList();
  }
}
