package org.kornspur.api.readmodel;

import java.util.List;

/**
 * A part of this instance that answers from topics it follows. The health checks ask for the state
 * of its followers.
 */
public interface ReadsTopics {

  /** The followers, started or not. */
  List<TopicFollower> followers();

  /** Once its followers are closed, when the program ends. */
  default void stopped() {}
}
