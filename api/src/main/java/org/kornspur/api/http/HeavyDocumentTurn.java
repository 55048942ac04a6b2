package org.kornspur.api.http;

import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import org.kornspur.api.kafka.NotReady;

/**
 * The turn of one request among the heavy documents. It ends with the request, when its answer is
 * written or has failed, and not when the caller goes away: the work goes on until then.
 */
@RequestScoped
public class HeavyDocumentTurn {
  @Inject HeavyDocuments documents;
  private boolean taken;

  /**
   * Waits for the turn.
   *
   * @throws NotReady where it does not come soon
   */
  void take() {
    documents.begin();
    taken = true;
  }

  @PreDestroy
  void giveBack() {
    if (taken) {
      documents.end();
    }
  }
}
