package org.kornspur.processors.finding;

import java.util.List;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Fact;

/** Facts with numbers beyond the limits of the contract, taken in by an earlier release. */
public sealed interface ContractFinding extends Finding {
  record BeyondLimits(List<Statement> facts) implements ContractFinding {}

  record FactBeyond(Fact fact, String field, Coded value, Coded limit) implements ContractFinding {}
}
