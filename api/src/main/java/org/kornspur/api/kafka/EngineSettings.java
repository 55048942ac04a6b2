package org.kornspur.api.kafka;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Settings under {@code kornspur.}: without any, all runs on this machine alone. */
@ConfigMapping(prefix = "kornspur")
public interface EngineSettings {

  /** Folder that holds the embedded broker's data and the local state; kept between runs. */
  @WithDefault("kornspur-data")
  Path dataFolder();

  /** Brokers of an external cluster; without them an embedded broker is started. */
  Optional<String> bootstrapServers();

  /** Address of an external schema registry; without it an embedded one is started. */
  Optional<String> schemaRegistryUrl();

  /** Time zone of the site, by its name in the IANA database; without it that of the machine. */
  Optional<String> timeZone();

  /** Language of the site, for who asks for none that is spoken here: {@code en} or {@code de}. */
  @WithDefault("en")
  String language();

  /** Further settings of every Kafka client, such as security, as {@code kornspur.kafka."key"}. */
  java.util.Map<String, String> kafka();

  /**
   * Users of an external cluster, as {@code User:name}, who bring facts and verify: they are given
   * the rights to do that and no more. The embedded broker has one of its own.
   */
  Optional<List<String>> clients();

  /** Loopback port of the embedded broker; 0 takes a free one. */
  @WithDefault("9092")
  int brokerPort();

  /** Loopback port of the embedded registry; 0 takes a free one. */
  @WithDefault("8081")
  int registryPort();

  /** Partitions of each topic, fixed at the first start. */
  @WithDefault("4")
  int partitions();

  /** Copies of each partition, on an external cluster. */
  @WithDefault("3")
  short replication();

  /** Group that instances share work in. */
  @WithDefault("kornspur")
  String applicationId();

  /** Host and port at which other instances reach this one's API. */
  Optional<String> advertisedAddress();

  /** What instances of one cluster show each other; the same text on all. */
  Optional<String> internalSecret();

  /** Stream threads of this instance. */
  @WithDefault("2")
  int streamThreads();

  /** Copies of each state store on other instances, ready to take over. */
  @WithDefault("1")
  int standbyReplicas();

  /**
   * Folder of this instance's signing key, made where it is empty; without it, {@code keys} in the
   * data folder.
   */
  Optional<Path> signingKey();

  /**
   * Folder of public keys, *.pub.pem, whose signatures count beside those of the own key folder.
   */
  Optional<Path> trustedKeys();

  /**
   * Whether a new signing key is wanted where the one that signed the log is lost. What the lost
   * key signed, checkpoints and acts, then counts only while its public key is in the key folder.
   */
  @WithDefault("false")
  boolean newSigningKey();

  /**
   * Losses of facts that the site goes on without, each as the refused start names it: {@code
   * partition:offset}. They stay missing, and every verification names them.
   */
  Optional<Set<String>> acceptLoss();

  /**
   * Folder of the administrator's rulebooks, *.yaml, each with an id of its own; without it, {@code
   * rulebooks} in the data folder. All instances of a cluster must have the same.
   */
  Optional<Path> rulebookFolder();

  /** Folder that backups go to, each into a folder of its own; without it none can be made. */
  Optional<Path> backupFolder();

  /** Facts of a partition after which a checkpoint is signed at once. */
  @WithDefault("256")
  int checkpointRecords();

  /** Time after which a checkpoint is signed if there are new facts. */
  @WithDefault("PT10S")
  Duration checkpointInterval();

  /**
   * Whether the site vouches for all who can write to its topic of facts, because its brokers admit
   * its own programs alone: then corrections and withdrawals of plain producers take effect.
   */
  @WithDefault("false")
  boolean trustTopicProducers();

  /**
   * Records not processed yet beyond which no facts are taken, over all instances. A fact makes
   * about five.
   */
  @WithDefault("500000")
  long mostWaitingRecords();

  /** Free space on the disk of the data folder below which no facts are taken, megabytes. */
  @WithDefault("500")
  long leastFreeDiskMb();

  /** Folder of files to load once running; facts that are known already count once. */
  Optional<Path> load();
}
