package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.kafka.SiteKeys;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.proof.CheckpointView;
import org.kornspur.api.query.proof.LogReader;
import org.kornspur.api.query.proof.LogView;
import org.kornspur.api.query.view.Notice;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.processors.stream.Topics;

/** The sealed log, for auditors. */
@Path(Addresses.ROOT + "/log")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Log")
public class LogResource {
  private static final int MOST_CHECKPOINTS = 1_000;

  @Inject ProcessorsClient processors;
  @Inject SiteKeys keys;
  @Inject RequestWords words;
  private final Clock clock = Clock.systemUTC();

  @GET
  @RequiresPermission(Permission.READ_LOG)
  @Operation(
      operationId = "getLog",
      summary = "How far the log is chained and signed, the newest checkpoints, the public keys")
  @APIResponse(responseCode = "200", description = "One entry for each partition")
  public LogView get() {
    List<LogView.PartitionView> partitions = new ArrayList<>();
    try (LogReader log = new LogReader(processors)) {
      for (int partition : log.partitions()) {
        Optional<Checkpoint> newest = log.newestCheckpoint(partition);
        partitions.add(
            new LogView.PartitionView(
                partition,
                log.newestLink(partition).map(ChainLink::sequence).orElse(0L),
                newest.map(Checkpoint::sequence).orElse(0L),
                newest.map(CheckpointView::of).orElse(null)));
      }
    }
    long chained = partitions.stream().mapToLong(LogView.PartitionView::chained).sum();
    long signed = partitions.stream().mapToLong(LogView.PartitionView::signed).sum();
    return new LogView(
        clock.instant(),
        chained,
        signed,
        Math.max(0, chained - signed),
        notChainedYet(),
        keys.signing().keyId(),
        keys.trusted().publicKeys().stream()
            .map(key -> new LogView.KeyView(TrustedKeys.keyId(key), TrustedKeys.pem(key)))
            .toList(),
        partitions,
        words.words().plain(new Notice.KeepCheckpoints()));
  }

  @GET
  @RequiresPermission(Permission.READ_LOG)
  @Path("checkpoints")
  @Operation(
      operationId = "listCheckpoints",
      summary = "Checkpoints of one partition, to be kept elsewhere")
  @APIResponse(responseCode = "200", description = "In order, at most 1,000 at once")
  public List<CheckpointView> checkpoints(
      @Parameter(schema = @Schema(type = SchemaType.INTEGER))
          @DefaultValue("0")
          @QueryParam("partition")
          String partition,
      @Parameter(description = "Number of the first", schema = @Schema(type = SchemaType.INTEGER))
          @DefaultValue("1")
          @QueryParam("from")
          String from) {
    long number = whole("from", from);
    try (LogReader log = new LogReader(processors)) {
      List<Integer> partitions = log.partitions();
      int asked = (int) Math.min(Integer.MAX_VALUE, whole("partition", partition));
      if (!partitions.contains(asked)) {
        throw ApiProblem.notFound(new AddressDetail.NoPartition(partition, partitions));
      }
      return log.checkpoints(asked, number, MOST_CHECKPOINTS).stream()
          .map(CheckpointView::of)
          .toList();
    }
  }

  private static long whole(String name, String value) {
    try {
      long number = Long.parseLong(value);
      if (number >= 0) {
        return number;
      }
    } catch (NumberFormatException notWhole) {
      // answered below, together with numbers below zero
    }
    throw new ApiProblem(
        ProblemKind.INVALID_PARAMETER,
        new AddressDetail.NoWholeNumber(name, Given.text(value, false)));
  }

  private Long notChainedYet() {
    try {
      return processors.lag().get(Topics.FACTS.topicName());
    } catch (NotReady notTold) {
      return null;
    }
  }
}
