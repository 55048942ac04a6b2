package org.kornspur.ingest.wire;

/** A record whose schema is known and that is none of the types that the reader takes. */
public final class UnknownRecordType extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final String recordName;

  UnknownRecordType(String recordName, String expected) {
    super(
        "The record is of type "
            + recordName
            + ", expected "
            + expected
            + ". Send it to the topic of its own, or update this program if the type is newer");
    this.recordName = recordName;
  }

  /** Full name of the type that came. */
  public String recordName() {
    return recordName;
  }
}
