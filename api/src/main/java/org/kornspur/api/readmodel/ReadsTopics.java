package org.kornspur.api.readmodel;

import java.util.List;

/** A part of this instance that answers from what feeds read; health asks how these are. */
public interface ReadsTopics {

  /** The feeds, started or not. */
  List<TopicFollower> feeds();
}
