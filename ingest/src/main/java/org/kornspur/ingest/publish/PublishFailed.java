package org.kornspur.ingest.publish;

/** A fact, or an entry of the quarantine, did not reach its topic. */
public final class PublishFailed extends RuntimeException {

  private final String topic;
  private final String id;

  PublishFailed(String topic, String id, Throwable cause) {
    super(
        ("%s did not reach topic %s: %s. Check that the broker and the schema registry "
                + "answer, then send it again; what has arrived counts once, however often it is sent")
            .formatted(id, topic, cause.getMessage()),
        cause);
    this.topic = topic;
    this.id = id;
  }

  /** The same failure to be thrown once more: one exception cannot suppress itself. */
  PublishFailed again() {
    return new PublishFailed(topic, id, getCause());
  }

  /** Id of the fact or entry. */
  public String id() {
    return id;
  }
}
