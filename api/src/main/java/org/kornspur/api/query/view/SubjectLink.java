package org.kornspur.api.query.view;

import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

@Schema(description = "A crop, lot, hybrid, enterprise or pollen source, and where to look")
public record SubjectLink(
    @Schema(examples = "lot:F1-24-007") String subject,
    @Schema(examples = "/api/v1/lots/F1-24-007") String href) {

  public static SubjectLink of(Subject subject) {
    return new SubjectLink(subject.toString(), Addresses.of(subject));
  }

  /** The id alone. */
  public String id() {
    return Subject.parse(subject).id();
  }
}
