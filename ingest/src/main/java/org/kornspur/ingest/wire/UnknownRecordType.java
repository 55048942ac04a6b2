package org.kornspur.ingest.wire;

/** A record whose schema is known and that is none of the types that the reader takes. */
public final class UnknownRecordType extends RuntimeException {

  UnknownRecordType(String recordName, String expected) {
    super(
        ("The record is of type %s, expected %s. Send it to the topic of its own, or update "
                + "this program if the type is newer")
            .formatted(recordName, expected));
  }
}
