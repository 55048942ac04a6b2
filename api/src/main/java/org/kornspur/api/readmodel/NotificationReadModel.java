package org.kornspur.api.readmodel;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationMessage;
import org.kornspur.processors.stream.Topics;

/** Keeps the choices and messages of notifications in step with their topics. */
@ApplicationScoped
public class NotificationReadModel implements ReadsTopics {
  private final ProcessorsClient processors;
  private final NotificationIndex index = new NotificationIndex();
  private final TopicFollower choices;
  private final TopicFollower messages;

  @Inject
  NotificationReadModel(ProcessorsClient processors) {
    this.processors = processors;
    this.choices =
        new TopicFollower(
            "notification-choices",
            Topics.NOTIFICATION_CHOICES.topicName(),
            processors,
            this::receiveChoice,
            index::clearChoices);
    this.messages =
        new TopicFollower(
            "notification-messages",
            Topics.NOTIFICATION_MESSAGES.topicName(),
            processors,
            this::receiveMessage,
            index::clearMessages);
  }

  /**
   * Every choice and message.
   *
   * @throws NotReady until the topics have been read to the ends that they had at the start
   */
  public NotificationIndex index() {
    followers().forEach(TopicFollower::requireCaughtUp);
    return index;
  }

  /** Whether nothing was written, at the last look, that is not read here. */
  public boolean isCurrent() {
    return followers().stream().allMatch(one -> one.isCaughtUp() && one.lag() == 0);
  }

  @Override
  public List<TopicFollower> followers() {
    return List.of(choices, messages);
  }

  private void receiveChoice(ConsumerRecord<String, byte[]> record) {
    if (record.value() == null) {
      index.removeChoice(record.key());
      return;
    }
    NotificationChoice choice = (NotificationChoice) processors.wire().decode(record.value());
    requireKey(record, choice.getPersonId());
    index.put(choice);
  }

  private void receiveMessage(ConsumerRecord<String, byte[]> record) {
    if (record.value() == null) {
      index.removeMessage(record.key());
      return;
    }
    NotificationMessage message = (NotificationMessage) processors.wire().decode(record.value());
    requireKey(record, message.getMessageId());
    index.put(message);
  }

  private static void requireKey(ConsumerRecord<String, byte[]> record, String id) {
    if (!id.equals(record.key())) {
      throw new IllegalArgumentException("A record of another id than its key names");
    }
  }
}
