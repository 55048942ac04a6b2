package org.kornspur.ingest.wire;

/** A record whose schema is known and that is none of the types that the reader takes. */
public final class UnknownRecordType extends RuntimeException {

  private static final long serialVersionUID = 1L;

  UnknownRecordType(String recordName, String expected) {
    super(
        ("The record is of type %s, expected %s. Send it to the topic of its own, or update "
                + "this program if the type is newer")
            .formatted(recordName, expected));
  }
}
