package org.kornspur.api.export.audit;

import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.command.audit.AuditOrder;
import org.kornspur.api.command.audit.AuditPackMaker;
import org.kornspur.api.export.paper.AppendixPaper;
import org.kornspur.api.export.paper.LotPaper;
import org.kornspur.api.http.HeavyDocuments;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.proof.DossierProofs;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.people.People;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.contract.Subject;

/** Makes the archive of an audit, in the language of the caller and of what they may see. */
@ApplicationScoped
public class AuditArchive implements AuditPackMaker {
  private static final String APPENDIX = "appendix";

  @Inject CurrentCaller current;
  @Inject RequestWords words;
  @Inject HeavyDocuments documents;
  @Inject LotPaper sheets;
  @Inject AppendixPaper appendices;
  @Inject QueryService queries;
  @Inject DossierProofs proofs;
  @Inject LogChecks logs;
  @Inject People people;
  @Inject ObjectMapper json;

  @Override
  @ActivateRequestContext
  public void make(AuditOrder order, OutputStream out, Progress progress)
      throws IOException, InterruptedException {
    current.set(order.caller());
    words.setLanguage(order.language());
    Archive archive = new Archive(out, Instant.now());
    PageTexts texts = words.texts("audit");
    List<Subject> lots = order.lots().stream().map(Subject::lot).toList();
    List<Subject> all = appendices.subjects(lots);
    List<Subject> subjects = all.subList(0, Math.min(all.size(), AppendixPaper.MOST_SUBJECTS));
    List<String> notes = new ArrayList<>();
    if (all.size() > subjects.size()) {
      notes.add(texts.of("ancestorsLeftOut", words.form().count(all.size() - subjects.size())));
    }
    addSheets(archive, lots, progress);
    addAppendix(archive, lots, subjects, progress);
    addProofs(archive, subjects, progress);
    progress.reached(Part.LOG, 0, 1);
    addLog(archive, texts);
    addJournal(archive, texts, notes);
    archive.end(
        "CONTENTS.txt", new ContentsText(texts, words.form()).of(order, archive.lines(), notes));
  }

  private void addSheets(Archive archive, List<Subject> lots, Progress progress)
      throws IOException, InterruptedException {
    for (int at = 0; at < lots.size(); at++) {
      progress.reached(Part.SHEETS, at, lots.size());
      Subject lot = lots.get(at);
      documents.inTurn(
          () ->
              archive.add(
                  archive.path("lots/", lot.id(), ".pdf"),
                  "",
                  sheets.print(lot, APPENDIX + ".pdf")));
    }
  }

  private void addAppendix(
      Archive archive, List<Subject> lots, List<Subject> subjects, Progress progress)
      throws IOException, InterruptedException {
    appendices.print(
        subjects,
        new LinkedHashSet<>(lots),
        done -> progress.reached(Part.APPENDIX, done, subjects.size()),
        (number, contents, pdf) ->
            documents.inTurn(
                () ->
                    archive.add(
                        number == 1 ? APPENDIX + ".pdf" : APPENDIX + "-" + number + ".pdf",
                        String.join(", ", contents),
                        pdf::write)));
  }

  private void addProofs(Archive archive, List<Subject> subjects, Progress progress)
      throws IOException {
    try (DossierProofs.Series series = proofs.series()) {
      for (int at = 0; at < subjects.size(); at++) {
        progress.reached(Part.PROOFS, at, subjects.size());
        Subject subject = subjects.get(at);
        archive.add(
            archive.path("proofs/" + subject.kind().word() + "-", subject.id(), ".json"),
            "",
            queries.proof(subject, series).toString().getBytes(StandardCharsets.UTF_8));
      }
    }
  }

  private void addLog(Archive archive, PageTexts texts) throws IOException, InterruptedException {
    documents.inTurn(
        () -> {
          LogCheck check = logs.check();
          archive.add(
              "log/verification.txt",
              texts.of("aboutVerification"),
              check.words(texts, words.form()).getBytes(StandardCharsets.UTF_8));
          archive.add("log/verification.json", "", check.data(json));
          archive.add(
              "log/checkpoints.json", texts.of("aboutCheckpoints"), check.checkpointFile(json));
        });
  }

  private void addJournal(Archive archive, PageTexts texts, List<String> notes) throws IOException {
    Optional<JournalFile> journal =
        current.get().may(Permission.READ_PEOPLE)
            ? Optional.of(new JournalFile(people.journal(), texts))
            : Optional.empty();
    if (journal.isEmpty()) {
      notes.add(texts.of("journalNotYours"));
      return;
    }
    archive.add(
        "people-journal.csv",
        texts.of("aboutJournal"),
        journal.get().csv().getBytes(StandardCharsets.UTF_8));
    notes.add(journal.get().state());
  }
}
