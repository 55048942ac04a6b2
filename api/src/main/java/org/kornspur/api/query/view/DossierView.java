package org.kornspur.api.query.view;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;

@Schema(description = "Every fact of one subject, by the time when it happened")
public record DossierView(
    SubjectLink subject,
    @Schema(description = "Facts that count", examples = "14") long counting,
    @Schema(description = "Facts that another took the place of", examples = "1") long superseded,
    List<FactView> facts,
    AsOf asOf) {

  /**
   * The view of some facts of a subject.
   *
   * @param entries those to be shown
   * @param all every fact of the subject
   */
  public static DossierView of(
      Subject subject,
      List<Entry> entries,
      List<Entry> all,
      ReceiptTimes receipts,
      Visibility visibility,
      ReaderWords words,
      AsOf asOf) {
    long counting = entries.stream().filter(Entry::counts).count();
    return new DossierView(
        SubjectLink.of(subject),
        counting,
        entries.size() - counting,
        entries.stream()
            .map(entry -> FactView.of(entry, all, receipts, visibility, words))
            .toList(),
        asOf);
  }
}
