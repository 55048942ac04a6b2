package org.kornspur.api.security.visibility;

import java.util.ArrayList;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.RightsProblem;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.processors.dossier.Entry;

/** What a laboratory may bring: its own tests, of samples that are assigned to it. */
record LaboratoryRights(String laboratoryId, ProcessorsClient processors) {

  List<Problem> against(SpecificRecord fact) {
    List<Problem> problems = new ArrayList<>();
    if (!laboratoryId.equals(text(fact, "laboratoryId"))) {
      problems.add(
          Problem.of(
              "laboratoryId",
              text(fact, "laboratoryId"),
              new RightsProblem.OtherLaboratory(laboratoryId)));
    }
    if (!isAssigned(text(fact, "lotId"), text(fact, "sampleId"))) {
      problems.add(
          Problem.of(
              "sampleId", text(fact, "sampleId"), new RightsProblem.NotAssigned(laboratoryId)));
    }
    return problems;
  }

  private boolean isAssigned(String lotId, String sampleId) {
    return lotId != null
        && sampleId != null
        && processors.entries(Subject.lot(lotId)).stream()
            .filter(Entry::counts)
            .map(Entry::fact)
            .filter(Sampling.class::isInstance)
            .map(Sampling.class::cast)
            .anyMatch(
                sampling ->
                    sampleId.equals(sampling.getSampleId())
                        && laboratoryId.equals(sampling.getLaboratoryId()));
  }

  private static String text(SpecificRecord fact, String field) {
    return FactType.text(fact, field).orElse(null);
  }
}
