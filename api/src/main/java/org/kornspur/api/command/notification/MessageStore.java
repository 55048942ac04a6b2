package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.readmodel.NotificationReadModel;
import org.kornspur.contract.NotificationMessage;

/** Writes messages to their topic, and to what this instance has read of it. */
@ApplicationScoped
public class MessageStore {
  @Inject ProcessorsClient processors;
  @Inject NotificationReadModel readModel;

  /** Keeps a message as it is now; one of which nothing is left is forgotten. */
  void keep(NotificationMessage message) {
    if (MessagePlan.isOver(message)) {
      forget(message);
    } else {
      processors.keep(message);
      readModel.index().put(message);
    }
  }

  void forget(NotificationMessage message) {
    processors.forgetMessage(message.getMessageId());
    readModel.index().removeMessage(message.getMessageId());
  }
}
