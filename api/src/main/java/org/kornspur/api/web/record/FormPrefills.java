package org.kornspur.api.web.record;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.MissingNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import org.kornspur.api.command.fact.QuarantineDecisions;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.security.visibility.PostingPolicy;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.dossier.Entry;

/**
 * Finds what a form is filled with at first: facts on record and refused input, as far as who asks
 * may.
 */
@RequestScoped
public class FormPrefills {
  @Inject VisibleData data;
  @Inject PostingPolicy rights;
  @Inject QuarantineDecisions quarantine;

  /** A new fact. */
  FormPrefill empty() {
    return new FormPrefill(
        Optional.empty(), Optional.empty(), Optional.empty(), MissingNode.getInstance());
  }

  /**
   * A fact to be corrected, with its values.
   *
   * @param by id of the correction, which may have gone in already where a page is sent twice
   * @throws ApiProblem if it is not the caller's to correct by this form
   */
  FormPrefill correcting(ContractForm form, String factId, String by) {
    Entry entry = mendable(factId, by).orElseThrow(() -> none(factId));
    if (FactType.of(entry.fact()) != form.type()) {
      throw none(factId);
    }
    ObjectNode fact = AvroJson.write(entry.fact());
    fact.withObjectProperty("header").remove("correction");
    return new FormPrefill(Optional.of(factId), Optional.of(entry), Optional.empty(), fact);
  }

  /**
   * A fact to be taken back.
   *
   * @param by id of the withdrawal, likewise
   * @throws ApiProblem if it is not the caller's to take back
   */
  FormPrefill takingBack(String factId, String by) {
    return takingBack(mendable(factId, by).orElseThrow(() -> none(factId)));
  }

  /** The same for an id that was typed; the intake says what speaks against one that is unknown. */
  FormPrefill takingBackTyped(String factId, String by) {
    return mendable(factId, by).map(FormPrefills::takingBack).orElseGet(this::empty);
  }

  private static FormPrefill takingBack(Entry entry) {
    ObjectNode fact = JsonNodeFactory.instance.objectNode();
    fact.put("withdrawnFactId", entry.header().getFactId())
        .putObject("header")
        .put("sourceDocument", entry.header().getSourceDocument());
    return new FormPrefill(Optional.empty(), Optional.of(entry), Optional.empty(), fact);
  }

  /**
   * Refused input to be mended.
   *
   * @throws ApiProblem if there is none that who asks may see
   */
  FormPrefill mending(String entryId) {
    JsonNode fact =
        QuarantineDecisions.fact(quarantine.entry(entryId)).orElse(MissingNode.getInstance());
    String corrects = fact.at("/header/correction/supersedes").asText("");
    return new FormPrefill(
        Optional.of(corrects).filter(id -> !id.isEmpty()),
        corrects.isEmpty() ? Optional.empty() : data.entry(corrects),
        Optional.of(entryId),
        fact);
  }

  private Optional<Entry> mendable(String factId, String by) {
    return data.entry(factId)
        .filter(
            entry ->
                entry
                    .superseded()
                    .map(Entry.Superseded::byFactId)
                    .filter(id -> !id.equals(by))
                    .isEmpty())
        .filter(entry -> rights.mayMend(entry.fact()));
  }

  private static ApiProblem none(String factId) {
    return ApiProblem.notFound(new RecordDetail.NoFactToMend(Given.text(factId, false)));
  }
}
