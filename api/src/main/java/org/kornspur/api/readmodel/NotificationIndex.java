package org.kornspur.api.readmodel;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationMessage;

/**
 * What persons want to hear of, and every message to them. Of two records of one thing the later
 * counts, in whatever order they come: what this instance did is here before its topic is read.
 */
public final class NotificationIndex {
  private final Map<String, NotificationChoice> choices = new HashMap<>();
  private final Map<String, Map<String, NotificationMessage>> byPerson = new HashMap<>();
  private final Map<String, String> persons = new HashMap<>();

  public synchronized void put(NotificationChoice choice) {
    choices.merge(
        choice.getPersonId(),
        choice,
        (before, now) -> now.getChosenAt().isBefore(before.getChosenAt()) ? before : now);
  }

  public synchronized void removeChoice(String personId) {
    choices.remove(personId);
  }

  public synchronized void put(NotificationMessage message) {
    persons.put(message.getMessageId(), message.getPersonId());
    byPerson
        .computeIfAbsent(message.getPersonId(), person -> new TreeMap<>())
        .merge(
            message.getMessageId(),
            message,
            (before, now) -> now.getRevision() < before.getRevision() ? before : now);
  }

  public synchronized void removeMessage(String messageId) {
    String person = persons.remove(messageId);
    if (person != null) {
      byPerson.get(person).remove(messageId);
      if (byPerson.get(person).isEmpty()) {
        byPerson.remove(person);
      }
    }
  }

  synchronized void clearChoices() {
    choices.clear();
  }

  synchronized void clearMessages() {
    byPerson.clear();
    persons.clear();
  }

  /** What a person wants to hear of; empty for one who never chose, or wants nothing. */
  public synchronized Optional<NotificationChoice> choice(String personId) {
    return Optional.ofNullable(choices.get(personId));
  }

  /** Everybody who chose, or to whom there is a message. */
  public synchronized Set<String> persons() {
    Set<String> all = new TreeSet<>(choices.keySet());
    all.addAll(byPerson.keySet());
    return all;
  }

  /** The messages to a person, by id. */
  public synchronized List<NotificationMessage> messagesTo(String personId) {
    return List.copyOf(byPerson.getOrDefault(personId, Map.of()).values());
  }

  public synchronized Optional<NotificationMessage> message(String messageId) {
    return Optional.ofNullable(persons.get(messageId))
        .map(person -> byPerson.get(person).get(messageId));
  }

  /** Every message, in no order. */
  public synchronized List<NotificationMessage> messages() {
    return byPerson.values().stream().map(Map::values).flatMap(Collection::stream).toList();
  }
}
