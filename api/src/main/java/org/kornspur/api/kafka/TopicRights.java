package org.kornspur.api.kafka;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.stream.Stream;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.common.acl.AccessControlEntry;
import org.apache.kafka.common.acl.AclBinding;
import org.apache.kafka.common.acl.AclOperation;
import org.apache.kafka.common.acl.AclPermissionType;
import org.apache.kafka.common.errors.RetriableException;
import org.apache.kafka.common.resource.PatternType;
import org.apache.kafka.common.resource.ResourcePattern;
import org.apache.kafka.common.resource.ResourceType;
import org.kornspur.processors.stream.Topics;

/**
 * What a user of the brokers may do who brings facts or verifies, and is not this program: write
 * facts and refused input, read what {@code verify} reads. No group is among it: who may commit
 * positions of a group could have the processors pass over facts.
 */
final class TopicRights {
  private static final long TIMEOUT_S = 60;
  private static final String ANY_HOST = "*";

  private static final Map<Topics, List<AclOperation>> RIGHTS =
      Map.of(
          Topics.FACTS, List.of(AclOperation.WRITE, AclOperation.READ),
          Topics.QUARANTINE, List.of(AclOperation.WRITE),
          Topics.CHAIN, List.of(AclOperation.READ),
          Topics.CHECKPOINTS, List.of(AclOperation.READ));

  private TopicRights() {}

  /** What such a user may do on a topic; empty on one that is this program's own. */
  static List<AclOperation> on(Topics topic) {
    return RIGHTS.getOrDefault(topic, List.of());
  }

  /**
   * Gives the rights to users; those who have them keep them.
   *
   * @param users principals as Kafka names them, {@code User:name}
   * @throws IllegalStateException if the brokers ask nobody who they are, or do not let this
   *     program give rights
   */
  static void grant(Admin admin, List<String> users)
      throws InterruptedException, ExecutionException, TimeoutException {
    List<AclBinding> bindings = users.stream().flatMap(TopicRights::of).toList();
    try {
      admin.createAcls(bindings).all().get(TIMEOUT_S, TimeUnit.SECONDS);
    } catch (ExecutionException failed) {
      if (failed.getCause() instanceof RetriableException) {
        throw failed;
      }
      throw new IllegalStateException(
          "kornspur.clients names "
              + users
              + ", and the brokers take no rights for them: "
              + failed.getCause().getMessage()
              + ". Set authorizer.class.name on the brokers and name this program's user in their"
              + " super.users; or give the rights by hand and leave kornspur.clients out",
          failed);
    }
  }

  private static Stream<AclBinding> of(String user) {
    return RIGHTS.entrySet().stream()
        .flatMap(
            right ->
                right.getValue().stream()
                    .map(operation -> allowed(user, right.getKey(), operation)));
  }

  private static AclBinding allowed(String user, Topics topic, AclOperation operation) {
    return new AclBinding(
        new ResourcePattern(ResourceType.TOPIC, topic.topicName(), PatternType.LITERAL),
        new AccessControlEntry(user, ANY_HOST, operation, AclPermissionType.ALLOW));
  }
}
