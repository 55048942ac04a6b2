package org.kornspur.api.page;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/** Words of the trade; the texts stand in {@code messages/trade_*.properties}. */
@MessageBundle("trade")
public interface TradeMessages {

  @Message
  String state(StandingState state);

  @Message
  String verdict(VerdictState state);

  @Message
  String gate(Gate gate);

  @Message
  String category(Category category);

  @Message
  String seed(Material.Kind kind);

  @Message
  String fact(FactType type);

  @Message
  String release(ReleaseStep step);

  @Message
  String act(ActKind kind);

  @Message
  String plantsPerM2();

  @Message
  String plantsPerHundred();

  @Message
  String percentagePoints();

  @Message
  String plants();

  @Message
  String seeds();

  @Message
  String bodies();

  @Message
  String visits();

  @Message
  String results();

  @Message
  String days();

  @Message
  String circles();

  @Message
  String denials();

  @Message
  String wrong();
}
