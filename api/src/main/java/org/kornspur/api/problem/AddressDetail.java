package org.kornspur.api.problem;

import java.util.List;
import org.kornspur.ingest.problem.Given;

/** Why an address, a method or a media type gives no answer. */
public sealed interface AddressDetail extends Detail {
  record NoResource(Given path) implements AddressDetail {}

  record UnknownMethod(Given method, List<String> known) implements AddressDetail {}

  record OtherMethod(Given path, String method, String allowed) implements AddressDetail {}

  record NotAcceptable(Given path, Given accepted) implements AddressDetail {}

  record NotRead(Given path, Given contentType) implements AddressDetail {}

  record Refused(Given path, int status) implements AddressDetail {}

  /** An unexpected error; the log has it under this id. */
  record Unexpected(String incident) implements AddressDetail {}

  record NoProblemKind() implements AddressDetail {}

  record NoLanguage() implements AddressDetail {}

  record NoBookForm(Given form) implements AddressDetail {}

  record NoLaboratoryForm(Given form) implements AddressDetail {}

  record NoRecordForm(Given form) implements AddressDetail {}

  record NoCause(Given cause) implements AddressDetail {}

  record NoMessage(Given message) implements AddressDetail {}

  record NoStartOfDrill() implements AddressDetail {}

  record NoPartition(String partition, List<Integer> partitions) implements AddressDetail {}

  record NoWholeNumber(String name, Given value) implements AddressDetail {}
}
