package org.kornspur.api.export.audit;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogFinding;
import org.kornspur.ingest.chain.PartitionReport;
import org.kornspur.ingest.verify.VerifyResult;

/**
 * The whole log as it was verified for a pack.
 *
 * @param reports one for each partition; none where the log is too long to be verified by the way
 * @param checkpoints the newest of each partition
 * @param keyIds of the keys whose signatures counted
 * @param chained records that are chained
 */
record LogCheck(
    Instant at,
    List<PartitionReport> reports,
    List<Checkpoint> checkpoints,
    List<String> keyIds,
    long chained) {

  /** What it came to; empty where the log was too long. */
  Optional<VerifyResult> result() {
    return reports.isEmpty()
        ? Optional.empty()
        : Optional.of(
            VerifyResult.of(
                findings(),
                reports.stream().mapToLong(PartitionReport::signed).sum(),
                reports.stream().mapToLong(PartitionReport::records).sum()));
  }

  private List<LogFinding> findings() {
    return reports.stream().flatMap(report -> report.findings().stream()).toList();
  }

  /** In words, for the caller. */
  String words(PageTexts texts, LocalFormat form) {
    StringBuilder text = new StringBuilder();
    line(text, texts.of("logVerified", form.moment(at), String.join(", ", keyIds)));
    line(
        text,
        result()
            .map(result -> texts.of("logResult", result))
            .orElseGet(() -> texts.of("logTooLong", form.count(chained))));
    for (PartitionReport report : reports) {
      line(
          text,
          texts.of(
              "logPartition",
              report.partition(),
              form.count(report.records()),
              form.count(report.signed()),
              form.count(report.checkpoints()),
              report.signedUntil().map(form::moment).orElse("–"),
              form.count(report.unsigned()),
              form.count(report.unchained()),
              form.count(report.beforeChain())));
    }
    for (LogFinding finding : findings()) {
      line(
          text,
          texts.of(
              "logFindingAt",
              texts.of("logFinding", finding.kind()),
              finding.partition(),
              finding.offset(),
              finding.sequence(),
              finding.factId().isEmpty() ? "–" : finding.factId(),
              finding.expected(),
              finding.found()));
    }
    line(text, texts.of("notProvedKey"));
    line(text, texts.of("notProvedTime"));
    line(text, texts.of("notProvedUnsigned"));
    line(text, texts.of("notProvedTruth"));
    line(text, texts.of("logAgain"));
    return text.toString();
  }

  private static void line(StringBuilder text, String line) {
    text.append(line).append("\r\n");
  }

  /** The same as data. */
  byte[] data(ObjectMapper json) {
    ObjectNode whole = json.createObjectNode();
    whole.put("format", "kornspur-log-check 1");
    whole.put("verifiedAt", at.toString());
    whole.put("result", result().map(Enum::name).orElse("NOT_VERIFIED"));
    whole.put("chained", chained);
    whole.set("keyIds", json.valueToTree(keyIds));
    whole.set("partitions", json.valueToTree(reports));
    return whole.toPrettyString().getBytes(StandardCharsets.UTF_8);
  }

  /** The checkpoints in the form that {@code verify --checkpoints} takes. */
  byte[] checkpointFile(ObjectMapper json) {
    ArrayNode list = json.createArrayNode();
    checkpoints.forEach(checkpoint -> list.add(checkpoint.toJson()));
    return list.toString().getBytes(StandardCharsets.UTF_8);
  }
}
