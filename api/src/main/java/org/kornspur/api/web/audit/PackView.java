package org.kornspur.api.web.audit;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.command.audit.AuditPack;
import org.kornspur.api.command.audit.AuditPacks;
import org.kornspur.api.command.audit.SampleDraw;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.text.LocalFormat;

/**
 * A pack as the pages show it.
 *
 * @param askedAt when it was asked for, in words
 * @param part what is being made, in words
 * @param draw how its lots were drawn; empty where none were
 * @param size of the archive in megabytes, in words; empty until it is ready
 * @param seconds that it took, in words; empty until it has ended
 * @param keptUntil in words; empty until it has ended
 */
public record PackView(
    String address,
    AuditPack.State state,
    String askedAt,
    List<String> lots,
    List<String> leftOut,
    Optional<SampleDraw> draw,
    int among,
    String part,
    int done,
    int all,
    String size,
    String seconds,
    String keptUntil) {
  private static final double MEGABYTE = 1e6;

  static PackView of(AuditPack pack, RequestWords words) {
    LocalFormat form = words.form();
    return new PackView(
        address(pack),
        pack.state(),
        form.moment(pack.askedAt()),
        pack.order().lots(),
        pack.order().leftOut(),
        pack.order().choice().draw(),
        pack.order().among(),
        words.texts("audit").of("part", pack.part()),
        pack.done(),
        pack.all(),
        pack.state() == AuditPack.State.READY
            ? form.number(size(pack) / MEGABYTE, 2) + "\u00a0MB"
            : "",
        pack.took().map(Duration::toMillis).map(ms -> form.number(ms / 1e3, 1)).orElse(""),
        pack.endedAt().map(end -> form.minute(end.plus(AuditPacks.KEPT))).orElse(""));
  }

  static String address(AuditPack pack) {
    return AuditPage.ROOT + "/packs/" + pack.id();
  }

  private static long size(AuditPack pack) {
    try {
      return Files.size(pack.file());
    } catch (IOException gone) {
      throw new UncheckedIOException(gone);
    }
  }

  public boolean isReady() {
    return state == AuditPack.State.READY;
  }

  public boolean isFailed() {
    return state == AuditPack.State.FAILED;
  }

  public boolean isWorking() {
    return !isReady() && !isFailed();
  }
}
