package org.kornspur.processors.stream;

import org.kornspur.standing.LotStanding;
import org.kornspur.standing.PedigreeEdge;

/** What a dossier sends on: its standing, its edges, where it lies, and what it tells others. */
sealed interface DossierRecord
    permits DossierRecord.OfStanding, DossierRecord.OfEdge, PlotChange, ReportChange {

  /** The standing of a crop or lot in its public form. */
  record OfStanding(EncodedRecord<LotStanding> standing) implements DossierRecord {}

  /** An edge of the pedigree in its public form. */
  record OfEdge(EncodedRecord<PedigreeEdge> edge) implements DossierRecord {}
}
