package org.kornspur.api.command.act;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.security.Caller;
import org.kornspur.contract.PersonName;
import org.kornspur.contract.PrintedName;
import org.kornspur.ingest.contract.Fingerprint;

/**
 * Printed names of those who signed. They lie apart from the acts, which hold an id and a salted
 * digest: the digest proves that the name that is shown is the one that signed, and when the name
 * is forgotten, the act, its signature and the chain still verify, and the name cannot be guessed
 * back, because the salt is gone with it.
 */
@ApplicationScoped
public class SignerNames {
  private static final int SALT_BYTES = 32;

  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  private final SecureRandom random = new SecureRandom();

  /** What was kept here and may not have come back from the topic yet, by person. */
  private final Map<String, List<PrintedName>> kept = new HashMap<>();

  /**
   * The digest of a caller's printed name, for a signature. The name is kept first, where it is not
   * yet.
   */
  synchronized String digestOf(Caller caller) {
    List<PrintedName> known = known(caller.personId());
    return known.stream()
        .filter(name -> name.getPrintedName().equals(caller.printedName()))
        .findFirst()
        .map(SignerNames::digest)
        .orElseGet(() -> digest(keep(caller, known)));
  }

  /**
   * The record of a person is written whole each time: a name that is left out is lost for good.
   */
  private List<PrintedName> known(String personId) {
    Set<PrintedName> all =
        new LinkedHashSet<>(readModel.signer(personId).map(PersonName::getNames).orElse(List.of()));
    all.addAll(kept.getOrDefault(personId, List.of()));
    return List.copyOf(all);
  }

  private PrintedName keep(Caller caller, List<PrintedName> known) {
    byte[] salt = new byte[SALT_BYTES];
    random.nextBytes(salt);
    PrintedName name = new PrintedName(caller.printedName(), HexFormat.of().formatHex(salt));
    List<PrintedName> all = new ArrayList<>(known);
    all.add(name);
    processors.keep(new PersonName(caller.personId(), all));
    kept.put(caller.personId(), all);
    return name;
  }

  /** The name that signed with this digest; empty where it was forgotten. */
  Optional<String> printed(String personId, String digest) {
    return readModel.signer(personId).stream()
        .flatMap(person -> person.getNames().stream())
        .filter(name -> isDigest(digest, name))
        .map(PrintedName::getPrintedName)
        .findFirst();
  }

  /** Forgets a person's names; what the person signed stays, under the id. */
  public synchronized void forget(String personId) {
    kept.remove(personId);
    processors.forget(personId);
  }

  private static boolean isDigest(String digest, PrintedName name) {
    return MessageDigest.isEqual(
        digest.getBytes(StandardCharsets.US_ASCII),
        digest(name).getBytes(StandardCharsets.US_ASCII));
  }

  private static String digest(PrintedName name) {
    byte[] salted =
        (name.getSalt() + "\n" + name.getPrintedName()).getBytes(StandardCharsets.UTF_8);
    return HexFormat.of().formatHex(Fingerprint.sha256().digest(salted));
  }
}
