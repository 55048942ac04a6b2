package org.kornspur.api.kafka.embedded;

import java.security.NoSuchAlgorithmException;
import java.security.Provider;
import java.security.Security;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.security.auth.callback.Callback;
import javax.security.auth.callback.NameCallback;
import javax.security.auth.callback.UnsupportedCallbackException;
import javax.security.auth.login.AppConfigurationEntry;
import org.apache.kafka.common.security.auth.AuthenticateCallbackHandler;
import org.apache.kafka.common.security.scram.ScramCredential;
import org.apache.kafka.common.security.scram.ScramCredentialCallback;
import org.apache.kafka.common.security.scram.internals.ScramFormatter;
import org.apache.kafka.common.security.scram.internals.ScramMechanism;
import org.apache.kafka.common.security.scram.internals.ScramSaslClientProvider;
import org.apache.kafka.common.security.scram.internals.ScramSaslServerProvider;
import org.apache.kafka.common.security.token.delegation.internals.DelegationTokenCredentialCallback;

/**
 * The broker's side of SCRAM for the users in the JAAS configuration of a listener, {@code
 * user_NAME="password"}, as Kafka has it for PLAIN. Kafka itself keeps SCRAM users in its metadata,
 * where the folders of earlier releases have none.
 */
public final class ScramUsers implements AuthenticateCallbackHandler {

  static final String OPTION = "user_";

  private final Map<String, ScramCredential> users = new HashMap<>();

  /**
   * Puts the mechanisms of this application in place. Java keeps them for the whole process and
   * Kafka adds them once; those of an application that ran in it before, as when development mode
   * loads again, do not know the classes of this one.
   */
  static void install() {
    for (String kind : List.of("SaslServerFactory.", "SaslClientFactory.")) {
      Provider[] before = Security.getProviders(kind + BrokerLogins.MECHANISM);
      for (Provider provider : before == null ? new Provider[0] : before) {
        Security.removeProvider(provider.getName());
      }
    }
    ScramSaslServerProvider.initialize();
    ScramSaslClientProvider.initialize();
  }

  @Override
  public void configure(
      Map<String, ?> configs, String mechanism, List<AppConfigurationEntry> jaasEntries) {
    ScramMechanism scram = ScramMechanism.forMechanismName(mechanism);
    for (AppConfigurationEntry entry : jaasEntries) {
      entry
          .getOptions()
          .forEach(
              (option, password) -> {
                if (option.startsWith(OPTION)) {
                  users.put(
                      option.substring(OPTION.length()), credential(scram, password.toString()));
                }
              });
    }
  }

  private static ScramCredential credential(ScramMechanism scram, String password) {
    try {
      return new ScramFormatter(scram).generateCredential(password, scram.minIterations());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("This Java has no " + scram.hashAlgorithm(), e);
    }
  }

  @Override
  public void handle(Callback[] callbacks) throws UnsupportedCallbackException {
    String user = null;
    for (Callback callback : callbacks) {
      if (callback instanceof NameCallback named) {
        user = named.getDefaultName();
      } else if (callback instanceof ScramCredentialCallback asked
          && !(callback instanceof DelegationTokenCredentialCallback)) {
        asked.scramCredential(users.get(user));
      } else {
        throw new UnsupportedCallbackException(callback);
      }
    }
  }

  @Override
  public void close() {}
}
