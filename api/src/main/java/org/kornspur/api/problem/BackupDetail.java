package org.kornspur.api.problem;

import java.util.List;

/** Why no backup is made. */
public sealed interface BackupDetail extends Detail {
  record AnotherRuns() implements BackupDetail {}

  record ClusterSite() implements BackupDetail {}

  record NoFolder() implements BackupDetail {}

  record WithinDataFolder() implements BackupDetail {}

  record FilesChanged(int copies) implements BackupDetail {}

  record StillWriting(List<String> partitions, long seconds) implements BackupDetail {}
}
