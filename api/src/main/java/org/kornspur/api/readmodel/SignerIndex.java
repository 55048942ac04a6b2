package org.kornspur.api.readmodel;

import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.kornspur.contract.PersonName;

/** Names of persons who signed, by person id; those who were forgotten are gone. */
public final class SignerIndex {
  private final Map<String, PersonName> names = new ConcurrentHashMap<>();

  void put(PersonName person) {
    names.put(person.getPersonId(), person);
  }

  void forget(String personId) {
    names.remove(personId);
  }

  /** Forgets everybody, until they are read again. */
  void clear() {
    names.clear();
  }

  /** The names of a person; empty for one who never signed or was forgotten. */
  public Optional<PersonName> of(String personId) {
    return Optional.ofNullable(names.get(personId));
  }
}
