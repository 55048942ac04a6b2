package org.kornspur.api.readmodel;

import java.util.List;

/**
 * A part of this instance that answers from what it reads of topics; health asks how its followers
 * are.
 */
public interface ReadsTopics {

  /** The followers, started or not. */
  List<TopicFollower> followers();

  /** Once its followers are closed, when the program ends. */
  default void stopped() {}
}
